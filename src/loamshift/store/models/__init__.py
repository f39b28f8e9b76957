"""The tables of the store, one file per topic."""

from __future__ import annotations

from loamshift.store.models.access import ApiKey, FailedSignIn
from loamshift.store.models.base import Kept
from loamshift.store.models.bed import Bed
from loamshift.store.models.change import Change
from loamshift.store.models.client import Client, Garden
from loamshift.store.models.field import FieldFiles
from loamshift.store.models.inbox import Question
from loamshift.store.models.intake import IntakeDraft, LaboratoryAnswers
from loamshift.store.models.letter import SentLetter
from loamshift.store.models.office import Office, Role, User
from loamshift.store.models.product import Product
from loamshift.store.models.score import ForecastIssued
from loamshift.store.models.trial import JarSeries, Trial

__all__ = [
    "ApiKey",
    "Bed",
    "Change",
    "Client",
    "FailedSignIn",
    "FieldFiles",
    "ForecastIssued",
    "Garden",
    "IntakeDraft",
    "JarSeries",
    "Kept",
    "LaboratoryAnswers",
    "Office",
    "Product",
    "Question",
    "Role",
    "SentLetter",
    "Trial",
    "User",
]
