"""Pages about oneself."""

from flask import Blueprint

blueprint = Blueprint("account", __name__, url_prefix="/account")
