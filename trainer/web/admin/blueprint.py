"""The administrator's pages under one address."""

from flask import Blueprint

blueprint = Blueprint("admin", __name__, url_prefix="/admin")
