"""A week of pulls: health first, then the week that is nearest to a client's wishes, and the first loads."""

from .candidates import (
    COUNTED,
    DIRECTIONS,
    Candidate,
    FittedPull,
    candidates,
    equipment,
    families,
    fitted_pulls,
    grip_cm,
    model_shares,
)
from .client import Client
from .groups import GROUPS
from .health import LIMITS, NoWeek, Question, all_no, questions
from .load import Carried, Known, Load, Step, first_load, liftable, next_load, repetitions_needed, step_range, steps
from .plan import Plan, Row, by_pull, plan_week
from .programme import Line, Programme, Target, Week
from .record import client_of, read_records, record_of, records_text
from .rules import Rules, rules
from .spans import span_of, spans
from .wish_names import WISHES
from .wishes import bands, can_be_done, programme
from .words import counts_words, health_words, set_words, share_words

__all__ = [
    "COUNTED",
    "DIRECTIONS",
    "GROUPS",
    "LIMITS",
    "WISHES",
    "Candidate",
    "Carried",
    "Client",
    "FittedPull",
    "Known",
    "Line",
    "Load",
    "NoWeek",
    "Plan",
    "Programme",
    "Question",
    "Row",
    "Rules",
    "Step",
    "Target",
    "Week",
    "all_no",
    "bands",
    "by_pull",
    "can_be_done",
    "candidates",
    "client_of",
    "counts_words",
    "equipment",
    "families",
    "first_load",
    "fitted_pulls",
    "grip_cm",
    "health_words",
    "liftable",
    "model_shares",
    "next_load",
    "plan_week",
    "programme",
    "questions",
    "read_records",
    "record_of",
    "records_text",
    "repetitions_needed",
    "rules",
    "set_words",
    "share_words",
    "span_of",
    "spans",
    "step_range",
    "steps",
]
