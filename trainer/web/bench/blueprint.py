"""The blueprint that all pages of the bench belong to."""

from flask import Blueprint

blueprint = Blueprint("bench", __name__, url_prefix="/bench")
