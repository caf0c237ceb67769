"""The employer's pages under one address."""

from flask import Blueprint

blueprint = Blueprint("employer", __name__, url_prefix="/employer")
