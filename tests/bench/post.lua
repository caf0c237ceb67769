-- The form that every request of a run sends; its words come from the environment.
wrk.method = "POST"
wrk.body = os.getenv("BENCH_BODY")
wrk.headers["Content-Type"] = "application/x-www-form-urlencoded"
wrk.headers["Accept"] = "application/json"
