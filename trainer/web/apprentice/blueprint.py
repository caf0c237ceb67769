"""The apprentice's pages under one address."""

from flask import Blueprint

blueprint = Blueprint("apprentice", __name__, url_prefix="/apprentice")
