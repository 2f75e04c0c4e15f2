"""A week of pulls: candidates, rules, the programme that chooses, and the page it is handed out on."""

from .candidates import (
    COUNTED,
    DIRECTIONS,
    GROUPS,
    Candidate,
    FittedPull,
    candidates,
    equipment,
    fitted_pulls,
    grip_cm,
    model_shares,
    share_bands,
)
from .client import HEALTH, Client, Referral
from .page import day_lines, page_csv, page_html, set_lines
from .plan import Clash, Plan, Row, plan_week
from .programme import Programme, Target, Wish
from .rules import Rules, rules
from .wishes import bands, programme
from .words import Logged, by_pull, change_words, log_sheet, next_load, set_up_words, set_words, share_words

__all__ = [
    "COUNTED",
    "DIRECTIONS",
    "GROUPS",
    "HEALTH",
    "Candidate",
    "Clash",
    "Client",
    "FittedPull",
    "Logged",
    "Plan",
    "Programme",
    "Referral",
    "Row",
    "Rules",
    "Target",
    "Wish",
    "bands",
    "by_pull",
    "candidates",
    "change_words",
    "day_lines",
    "equipment",
    "fitted_pulls",
    "grip_cm",
    "log_sheet",
    "model_shares",
    "next_load",
    "page_csv",
    "page_html",
    "plan_week",
    "programme",
    "rules",
    "set_lines",
    "set_up_words",
    "set_words",
    "share_bands",
    "share_words",
]
