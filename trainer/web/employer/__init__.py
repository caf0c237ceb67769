"""People shared with an employer, and who may do a job."""
