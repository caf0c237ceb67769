"""The instructor's pages under one address."""

from flask import Blueprint

blueprint = Blueprint("instructor", __name__, url_prefix="/instructor")
