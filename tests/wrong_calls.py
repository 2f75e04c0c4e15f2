"""Calls of strangers: each public function with values that work, and what else people put where those belong.

`CALLS` has one row a function: each argument with a value that works and the kind of thing that it is. `HOSTILE` has what must
be refused for each kind. `wrong_calls` crosses the two, and adds arguments that do not exist, are missing or are too many;
`ODD` are single calls. What a call ends in is told by `outcome`.
"""

import datetime
import inspect
from collections import namedtuple
from dataclasses import dataclass

import numpy as np
import xarray as xr

import shoulder_model as sm
from shoulder_model.week.load import step_of

LONGEST = 250  # letters of a refusal
MAN, CROWD, PULL = sm.Lifter.average("men"), sm.draw_lifters(3, "men", seed=1), sm.pulls["front pulldown"]
MANY = PULL.change(grip_ratio=np.array([1.0, 1.5]))
REP = sm.rep(MAN, PULL, points=5)
RULES = sm.week.rules("novice")
TRIALS = sm.evidence.comparisons()
CANDIDATE = next(one for one in sm.week.candidates() if step_of(one) is not None)
CLIENT = sm.Client(MAN, health=sm.week.all_no())
PLAN = sm.plan_week(CLIENT)
ENTRY = sm.training.Entry(PLAN.rows[0].name, 1, 40.0, 10, pain=0)
POSTURE = sm.mechanics.posed_arm(MAN, 0.5, 0.3, 1.0)
GIRDLE = sm.mechanics.girdle_at(MAN, 0.0, 0.0)
STRENGTH = sm.expected_strength(MAN)


class Rude:
    """Whose words, truth, comparisons and arrays all go wrong."""

    def _no(self, *args, **named):
        raise RuntimeError("rude\nand long " * 100)

    __repr__ = __str__ = __bool__ = __eq__ = __len__ = __iter__ = __array__ = __float__ = __index__ = __lt__ = _no
    __hash__ = object.__hash__


class Wordy:
    """Whose repr is long and has many lines."""

    def __repr__(self):
        return "line\n" * 100_000


def nothing_right():
    """What is wrong everywhere, None first."""
    return [
        None, True, 1j, float("nan"), {1.0}, (one for one in "ab"), object(), Rude(), Wordy(), Rude, len, lambda: 0, ...,
        b"men", "x" * 10_000, "a\nb", "\ud800", "\x1b[2J", datetime.date(2026, 1, 1), np.datetime64("2026-01-01"),
        np.array([None, 1], object), xr.Dataset(), [[]],
    ]  # fmt: skip


def anything():
    """What is wrong nearly everywhere, None first."""
    return [*nothing_right(), {}, {"a": 1}, "", "nonsense"]


def numbers():
    """What is no number and no array of numbers, or is not finite."""
    return [
        *anything(), np.True_, "40", b"40", "nan", "1,75", np.str_("40"), np.array([1j]), float("inf"), -np.inf, 10**400,
        -(10**400), 10**5000, 1e300, -1e300, [], np.array([]), [[1.0], [1.0, 2.0]], [True, 1.0], ["a"], ["1"], [None],
        [float("nan"), 1.0], np.array(["1"]), np.array([True]), np.array([1.0, None], object), np.ma.masked,
        np.ma.masked_array([1.0, 2.0], [False, True]), [1.0, np.ma.masked], np.array([(1.0, 2.0)], "f8,f8"),
        datetime.timedelta(1), np.timedelta64(1, "s"), bytearray(b"4"), memoryview(b"4"), float, range(0),
    ]  # fmt: skip


def scalars():
    """What is not one number."""
    return [*numbers(), [1.0, 1.0], np.ones((1, 1)), np.ones(3), (1.0,), [1], xr.DataArray([1.0, 2.0])]


def counts():
    """What is no count."""
    return [*scalars(), 2.9, -1, -(10**9), 0.5, 1e12, np.float64(2.5)]


def flags():
    """What is neither True nor False."""
    return [
        *anything()[:1],
        *anything()[2:],
        "0",
        "1",
        "false",
        "True",
        "no",
        0,
        1,
        1.0,
        -1,
        [],
        [True],
        (),
        np.array([True, False]),
        np.array(True),
    ]


def names():
    """What is no name in a list."""
    return [*anything(), 1, 0, 1.5, [], ["men"], ("men",), np.array(["men", "men"]), "MEN ", "mén", " ", "None", "True"]


def texts():
    """What is not a line of words."""
    return [*nothing_right(), {}, {"a": 1}, 1, 2.5, ["a"], []]


def things():
    """What is none of our records."""
    return [*anything(), "front pulldown", "men", 1, 2.5, [], [MAN], (PULL,), sm.Lifter, sm.Pull]


HOSTILE = {
    "number": numbers,
    "scalar": scalars,
    "count": counts,
    "flag": flags,
    "name": names,
    "text": texts,
    "lifter": lambda: [*things(), PULL, CLIENT],
    "one lifter": lambda: [*things(), PULL, CLIENT, CROWD],
    "pull": lambda: [*things(), MAN, MANY],
    "pulls": lambda: [*things(), MAN],
    "pulls asked": lambda: [*anything(), 1, 2.5, [None], ["nonsense"], [1.0], (MAN,), MAN, [Rude()], MANY, "chin up"],
    "seed": lambda: [*scalars(), 2.9, -1, -(10**9), 0.5],
    "word": lambda: [one for one in nothing_right() if not isinstance(one, str)] + [1, 2.5, {}, ["a"], []],
    "thing": lambda: [*things(), MAN, PULL],
    "vectors": lambda: [*numbers(), 1.0, [1.0], [1.0, 2.0], np.ones((3, 2))],
    "values": lambda: [*numbers(), np.ones((1, 1)), [[1.0]]],
    "list": lambda: [*anything(), 1, 2.5, MAN, [None], ["nonsense"], [1.0], (MAN,), [Rude()], "chin-up"],
    "words": lambda: [
        None,
        1,
        2.5,
        MAN,
        [None],
        [1.0],
        (MAN,),
        [Rude()],
        Rude(),
        "chin-up",
        b"a",
        {},
        {"a": 1},
        object(),
        len,
    ],
    "dict": lambda: [
        *nothing_right(),
        "",
        1,
        MAN,
        [],
        {"nonsense": 1},
        {1: 1},
        {None: None},
        {"a": Rude()},
        [("a", 1)],
    ],
    "strength": lambda: [*anything(), 0.0, -1, MAN, PULL, "2", [], 10**400],
    "file": lambda: [*anything(), 1, 2.5, [], [1.0], MAN, b"\xff\xff", "a,b\n1,2", '"', "\x00", "[" * 10_000],
}
Argument = namedtuple("Argument", "kind value optional also called", defaults=(False, (), ""))
Call = namedtuple("Call", "function given positional")


def of_kind(kind):
    """What makes an `Argument` of a kind: its value that works, whether None does too, what more is refused, what it is called."""

    def argument(value, optional=False, also=(), called=""):
        return Argument(kind, value, optional, also, called)

    return argument


number, scalar, count, flag, name, text = map(of_kind, ("number", "scalar", "count", "flag", "name", "text"))
thing, vectors, values, listed, mapped = map(of_kind, ("thing", "vectors", "values", "list", "dict"))
lifter, one_lifter, pull = of_kind("lifter")(MAN), of_kind("one lifter")(MAN), of_kind("pull")(PULL)
pulls = of_kind("pulls")(PULL)
strength = thing(None, optional=True)
rep = thing(REP)


def call(function, *positional, **given):
    """One row of `CALLS`; ``positional`` are arguments that have to come first and without their names."""
    return Call(function, given, positional)


def _people():
    p = sm.people
    measures = {one: getattr(MAN, one) for one in p.MEASURES}
    men, metre = name("men"), number(1.0)
    return [
        call(sm.Lifter, sex=men, **{one: number(value) for one, value in measures.items()}),
        call(sm.Lifter.average, sex=men),
        call(sm.Lifter.from_measures, sex=men, stature=scalar(1.80), mass=scalar(80.0)),
        call(sm.expected_measures, sex=men, stature=scalar(1.80), biacromial=scalar(0.40)),
        call(sm.survey, sex=men),
        call(sm.draw_lifters, n=count(2), sex=men, seed=of_kind("seed")(1), stature=scalar(1.80)),
        call(
            p.Crowd, n=count(2), sex=men, seed=of_kind("seed")(1), measured=mapped({"stature": 1.80}, called="measure")
        ),
        call(sm.constant, name=name("gravity", called="constant")),
        call(p.ellipse_girth, breadth=metre, depth=metre),
        call(p.girth_gain, breadth=metre, depth=metre, thickness=number(0.01), where=name("sides")),
        call(p.ratio_change, upper=metre, waist=metre, upper_change=number(0.0), waist_change=number(0.01)),
        call(p.waist_worth, upper=metre, waist=metre),
        call(p.side_layer, sex=men, thickness=number(0.01)),
        call(p.percentile, value=scalar(1.0), mean=scalar(1.0), sd=scalar(0.1)),
        call(p.survey_quantities, sex=men),
        call(p.survey_quantity, sex=men, name=name("waist_breadth", called="quantity")),
        call(p.means, sex=men),
        call(p.waist_bands, sex=men),
        call(p.held_ratios, sex=men),
    ]


def _mechanics():
    m, angle = sm.mechanics, number(0.3)
    points, offset, force = vectors([0.1, 0.2, 0.3]), number(0.1), number(200.0)
    arrow = vectors(np.array([0.1, 0.2, 0.3]))
    pull_numbers = {one: scalar(getattr(PULL, one)) for one in m.pull.ALLOWED if getattr(PULL, one) is not None}
    pull_numbers = {one: number(at.value, optional=one == "load_kg") for one, at in pull_numbers.items()}
    pull_words = {one: name(getattr(PULL, one)) for one in ("touch", "hand_turn", "hold", "load_from", "path")}
    rest = {"touch_up": number(0.1, optional=True), "hands": count(2), "body_share": scalar(1.0)}
    fields = pull_numbers | pull_words | rest
    return [
        call(sm.tape_law, force=force, w=offset, a=offset, pull_angle=angle),
        call(sm.tape_law_margin, force=force, pull_angle=angle),
        call(m.girdle_margin, force=force, pull_angle=angle),
        call(
            sm.held_weight, lifter=lifter, load_kg=number(5.0), elevation=angle, elbow_flexion=angle,
            muscle_arm=number(0.04), arm_weight=flag(True),
        ),
        call(sm.Pull, name=text("my pull"), **fields),
        call(PULL.change, **fields),
        call(PULL.mass_on_bar, lifter=lifter),
        call(PULL.force, lifter=lifter),
        call(PULL.hand_offset, lifter=lifter),
        call(PULL.line_offset, lifter=lifter),
        call(PULL.touch_point, lifter=lifter),
        call(PULL.touch_along, lifter=lifter),
        call(m.moment, position=arrow, force=arrow, about=arrow),
        call(m.anatomical, torque=points, side=name("left")),
        call(m.of_girdle, torque=arrow),
        call(m.tension_to_hold, torque=number(10.0), moment_arm=number(0.04, also=(0.0, [1.0, 0.0]))),
        call(m.moment_of_inertia, torque=number(10.0), angular_acceleration=number(2.0, also=(0.0,))),
        call(m.travelled, progress=number(0.5), lead=number(0.2)),
        call(m.raised_arm, elevation=angle, plane=angle),
        call(m.clavicle_axes, retraction=angle, elevation=angle),
        call(m.girdle_at, lifter=lifter, retraction=angle, elevation=angle),
        call(m.sc_joint, lifter=lifter),
        call(m.posed_arm, lifter=lifter, elevation=angle, plane=angle, elbow_flexion=angle),
        call(m.shoulder_hand_distance, lifter=lifter, elbow_flexion=angle),
        call(m.elbow_flexion_at, lifter=lifter, distance=number(0.4)),
        call(m.pull_axes, pull=pulls),
        call(m.hand_path, lifter=lifter, pull=pulls, points=count(5)),
        call(m.rep_mechanics, lifter=lifter, pull=pulls, points=count(5), arm_weight=flag(False)),
        call(m.girdle_along, lifter=lifter, pull=pulls, progress=number(0.5)),
    ]  # fmt: skip


def _muscles():
    u, angle, lat = sm.muscles, number(0.3), name("latissimus dorsi middle", called="muscle")
    return [
        call(
            sm.moment_arm, name=lat, elevation=angle, plane=angle, axis=name("extension"), scapula_turns=flag(False),
        ),
        call(u.muscle_length, name=lat, elevation=angle, plane=angle),
        call(u.elbow_moment_arm, name=name("brachialis", called="muscle"), flexion=angle),
        call(u.elbow_excursion, name=name("brachialis", called="muscle"), flexion=angle),
        call(u.elbow_arms, names=listed(["brachialis"]), flexion=angle),
        call(u.drive, hand_turn=name("neutral")),
        call(u.leverage, hand_turn=name("neutral")),
        call(u.pull_band, hand_turn=name("neutral")),
        call(u.beyond_forearm, turn=angle),
        call(u.upward_rotation, elevation=angle, plane=angle, rhythm=scalar(1.0)),
        call(u.turned_scapula, elevation=angle, plane=angle, retraction=angle, rhythm=scalar(1.0)),
        call(u.force_length_factor, normal_length=number(1.0)),
        call(u.fibre_length, length=number(REP.muscle_length.values)),
        call(u.capacity, length=vectors(REP.muscle_length.values), factor=number(1.0), body=strength),
        call(u.capacity_band, length=vectors(REP.muscle_length.values), strength=thing(STRENGTH)),
        call(u.drawn_bodies, n=count(1), seed=of_kind("seed")(1)),
        call(
            sm.Strength, factor=number(1.0), low=number(0.9), high=number(1.1), elbow=number(1.5), known_from=text("a test"),
        ),
        call(sm.expected_strength, lifter=lifter),
        call(STRENGTH.times, change=number(1.0), low=number(0.9), high=number(1.1), known_from=text("a test")),
        call(u.muscle_geometry, posture=thing(POSTURE), girdle=thing(GIRDLE), body=thing(u.reference_body()), compiled=flag(False)),
    ]  # fmt: skip


def _spread():
    s, seed = sm.spread, of_kind("seed")(1)
    drawn, asked = s.draw(1, 0), of_kind("pulls asked")(PULL, called="pull")
    return [
        call(s.names_of, kind=name("people", optional=True)),
        call(s.draw, seed=seed, number=of_kind("seed")(0)),
        call(s.drawn_inputs, n=count(1), seed=seed),
        call(drawn.pull, pull=pulls),
        call(drawn.strength, strength=thing(STRENGTH), sex=name("men"), anchored=flag(True)),
        call(s.relative_spread, sex=name("men")),
        call(s.strength_of, crowd=lifter, deviates=number(0.0)),
        call(s.drawn_strength, crowd=lifter, seed=seed),
        call(
            sm.study,
            crowd=lifter,
            pulls=asked,
            answers=listed(["force"]),
            draws=count(0),
            seed=seed,
            points=count(3),
            grip_ratio=number([1.0], optional=True),
            trunk_lean=number([0.0], optional=True),
            strength=name("expected"),
            anchored=flag(True),
            keep=name("arrays"),
            memory_mb=scalar(100.0),
            workers=of_kind("seed")(1),
            progress=flag(False),
        ),
        call(
            s.what_matters,
            crowd=thing(sm.Crowd(8, "men", 1)),
            pull=pull,
            answers=listed(["force"]),
            n=count(8),
            seed=seed,
            points=count(3),
            grip_ratio=number(None, optional=True),
            anchored=flag(True),
            progress=flag(False),
        ),
        call(s.stored_matters, sex=name("men"), pull=name("front pulldown"), answer=name("lat_share")),
        call(s.standing, pull=pull, sex=name("men"), bands=flag(True), stature=scalar(1.80), mass=scalar(80.0)),
        call(s.band_of, answers=number([1.0, 2.0, 3.0]), level=scalar(0.9)),
    ]


def _repetition():
    r, angle, some = sm.repetition, number(0.3), count(5)
    torques = {one: scalar(60.0) for one in ("adduction", "extension", "elbow_flexion")}
    options = {
        "points": some, "arm_weight": flag(True), "balance": name("plane"), "side_force": name("grip"),
        "power": scalar(2.0), "by_size": flag(True), "compiled": flag(False), "strength": of_kind("strength")(2.0, optional=True),
        "body": strength,
    }  # fmt: skip
    shown = {"muscles": flag(True), "work": flag(True)}
    pair, one_pair = {"lifter": lifter, "pull": pull}, {"lifter": one_lifter, "pull": pull}
    return [
        call(sm.rep, **pair, **options, **shown),
        call(sm.sweep, **pair, **options, muscles=flag(True), work=flag(None, optional=True), grip_ratio=values([1.0, 1.5]), trunk_lean=values([0.1])),
        call(sm.sweep, **pair, points=some, work=flag(False, optional=True), stature=values([1.7])),
        call(sm.load_span, **one_pair, **options),
        call(sm.work_done, **one_pair, counted=flag(True), **options, **shown),
        call(
            sm.muscle_shares, **one_pair, kind=name("work"), effort=scalar(0.5), band=flag(False),
            strength=options["strength"],
        ),
        call(sm.coverage, **one_pair, muscle=lat_name(), points=some),
        call(sm.counted_part, rep=rep),
        call(sm.weakest_point, rep=rep),
        call(r.first_counted, points=some),
        call(r.active_cross_section, rep=rep, body=strength),
        call(r.carried_way, rep=rep, pull=pull, first=count(0)),
        call(r.joint_work, rep=rep, first=count(0)),
        call(r.muscle_work, rep=rep, pull=pull, elbow_factor=scalar(1.5), first=count(0)),
        call(r.activation_at, **one_pair, rep=rep, point=count(3)),
        call(r.torque_polygon, **one_pair, rep=rep, point=count(3)),
        call(r.RepOptions, **options, muscles=flag(True), work=flag(True, optional=True)),
        call(
            r.isometric_torque, movement=name("extension"), elevation=angle, plane=angle, factor=number(1.0),
            elbow_flexion=angle,
        ),
        call(r.isometric_elbow_torque, factor=scalar(1.0), elbow_flexion=scalar(0.3)),
        call(r.from_repetition_maximum, **one_pair, load_kg=scalar(40.0), repetitions=scalar(8), points=some),
        call(r.from_torques, lifter=one_lifter, **torques),
        call(r.share_of_maximum, repetitions=scalar(8)),
        call(r.one_repetition_maximum, load_kg=scalar(40.0), repetitions=scalar(8)),
        call(r.load_for, one_rm_kg=scalar(40.0), repetitions=scalar(8)),
        call(r.repetitions_at, share=scalar(0.8)),
        call(r.group_shares, amounts=vectors(np.ones(len(sm.muscles.MUSCLES)))),
    ]  # fmt: skip


def lat_name():
    """A muscle, as an argument."""
    return name("latissimus dorsi middle")


def _evidence():
    e, n, r = sm.evidence, number(12), scalar(0.5)
    two = {"first": number(30.0), "second": number(26.0), "sd_first": number(8.0), "sd_second": number(9.0)}
    trials, question = listed(TRIALS), name("row or pulldown")
    within = {"n": n, "correlation": number(0.5)}
    return [
        call(e.difference_of_groups, **two, n_first=n, n_second=n),
        call(e.difference_within, **two, **within),
        call(e.log_ratio_within, **two, **within),
        call(e.random_effects, values=values([0.1, 0.2, 0.3]), variances=values([0.1, 0.1, 0.1])),
        call(e.minimal_detectable_change, sem=number(8.0)),
        call(e.small_sample_factor, freedom=number(12)),
        call(e.t_quantile, freedom=scalar(12), share=scalar(0.9)),
        call(e.power_of, n=n, size=number(0.8)),
        call(e.smallest_seen, n=n, power=scalar(0.8)),
        call(e.contrast, row=thing(TRIALS[0])),
        call(e.grade, trials=trials, correlation=r),
        call(e.together, trials=trials, question=question, correlation=r),
        call(e.unseen, trials=trials, correlation=r),
        call(e.cautions, trials=trials),
        call(e.difference_words, trials=trials, correlation=r),
        call(e.comparison_table, trials=trials, correlation=r),
        call(e.comparison_rows, trials=trials, correlation=r),
        call(e.pooled, trials=listed(POOLED), correlation=r),
        call(e.muscles, question=question, trials=listed(TRIALS, optional=True)),
        call(
            e.choose, trials=trials, held=name("any load"), trained_only=flag(True), one_change_only=flag(True),
            mvic_only=flag(True), minimum_n=scalar(3),
        ),
        call(e.read_trials, content=of_kind("file")(e.example_trial()), name=of_kind("word")("my table")),
        call(e.trial_template, delimiter=name(";")),
        call(TRIALS[0].effect, correlation=r),
        call(TRIALS[0].band, correlation=r),
        call(TRIALS[0].direction, correlation=r),
    ]  # fmt: skip


POOLED = tuple(
    sm.evidence.Comparison(
        study=str(i), citation="", n=12, question="trunk lean", muscle="m", phase="", first="", second="", higher="",
        statement="", held="each", also_changed="", trained="", normalised="MVIC", flaws="", means=(30.0, 8.0, 25.0, 8.0),
    )
    for i in range(3)
)  # fmt: skip


def _week():
    w, client, rules = sm.week, thing(CLIENT), thing(RULES)
    candidate, kg, some = thing(CANDIDATE), scalar(20.0), scalar(8)
    plain = {
        "experience": name("novice"), "days": count(2), "goal": scalar(0.5), "health": mapped(w.all_no()),
        "cleared": of_kind("word")(""), "limits": listed(("no hanging",)), "equipment": listed(w.equipment()),
        "leave_out": listed(("chin-up",)), "prefer": listed(("chin-up",)), "own_weight_repetitions": count(3),
        "behind_neck": flag(False), "wide_grip": flag(False), "wishes": listed(tuple(w.WISHES)), "known": listed(()),
        "carried": listed(()), "steps": mapped({}), "hurt": listed(()), "name": of_kind("word")("A"),
    }  # fmt: skip
    step = next(iter(w.steps().values()))
    return [
        call(sm.Client, lifter=one_lifter, **plain),
        call(sm.plan_week, client=client, rules=thing(None, optional=True), known_spans=mapped(None, optional=True),
             listed_pulls=listed(None, optional=True)),
        call(w.rules, experience=name("novice")),
        call(w.Known, pull=text("chin-up"), load_kg=kg, repetitions=count(8)),
        call(w.Carried, pull=text("chin-up"), low_kg=scalar(1.0, optional=True), high_kg=scalar(2.0, optional=True),
             words=text("a")),
        call(w.first_load, candidate=candidate, rules=rules, known=listed(()), given=mapped(None, optional=True),
             mass_kg=kg, pull_ups=count(3)),
        call(w.liftable, load_kg=kg, repetitions=some, wanted=some),
        call(w.step_range, load_kg=kg, rules=rules),
        call(w.next_load, load_kg=kg, rules=rules, step=thing(step), done=count(8)),
        call(w.repetitions_needed, load_kg=kg, next_kg=scalar(22.0), wanted=some),
        call(
            w.Step, equipment=of_kind("word")("a stack"), smallest_kg=kg, step_kg=kg, add_on_kg=kg, one_hand=flag(False),
        ),
        call(step.down, kg=kg),
        call(step.up, kg=kg),
        call(step.above, kg=kg),
        call(step.every, kg=scalar(2.5)),
        call(w.grip_cm, lifter=one_lifter, grip_ratio=scalar(1.5)),
        call(w.fitted_pulls, lifter=one_lifter, listed=listed((CANDIDATE,), optional=True)),
        call(w.model_shares, lifter=one_lifter, candidate=candidate),
        call(w.span_of, name=name(CANDIDATE.name), group=name("lat")),
        call(w.bands, client=client, rules=rules),
        call(w.can_be_done, client=client, rules=rules, candidate=candidate),
        call(w.by_pull, plan=thing(PLAN)),
        call(w.health_words, client=client),
        call(w.client_of, record=mapped(w.record_of(CLIENT, {}), called="client")),
        call(w.record_of, client=client, measures=mapped({"stature": 1.8})),
        call(w.read_records, content=of_kind("file")(w.records_text([w.record_of(CLIENT, {})]))),
    ]  # fmt: skip


def _training():
    t, rules, plan, entries = sm.training, thing(RULES), thing(PLAN), listed((ENTRY,))
    rows = tuple(row.name for row in PLAN.rows)
    return [
        call(
            t.Entry, pull=text("chin-up"), set=count(1), load_kg=scalar(20.0, optional=True),
            repetitions=count(8, optional=True), left=scalar(1.0, optional=True), pain=scalar(0.0, optional=True),
            comfort=scalar(5.0, optional=True), day=count(1, optional=True), grip_cm=scalar(60.0, optional=True),
            note=text("good"),
        ),
        call(t.blank_log, plan=plan, delimiter=name(";")),
        call(t.log_text, entries=entries, delimiter=name(";"), decimal=name(",")),
        call(t.read_log, content=of_kind("file")(t.log_text([ENTRY])), names=of_kind("words")(rows)),
        call(t.next_block, plan=plan, entries=entries, listed_pulls=listed(None, optional=True)),
        call(t.starts, plan=plan),
        call(t.verdicts, entries=entries, rows=listed(PLAN.rows), rules=rules, given=mapped(None, optional=True),
             mass_kg=scalar(80.0), offered=of_kind("words")(None, optional=True)),
        call(t.left_words, rules=rules),
        call(t.progress_words, rules=rules),
        call(t.rest_words, rules=rules),
        call(sm.torque_words, torque=vectors([1.0, 2.0, 3.0]), load=vectors(None, optional=True)),
        call(sm.torque_change_words, now=vectors([1.0, 2.0, 3.0]), kept=vectors([2.0, 2.0, 2.0])),
        call(sm.written, value=scalar(1.0), digits=count(1), sign=flag(True)),
    ]  # fmt: skip


CALLS = [*_people(), *_spread(), *_mechanics(), *_muscles(), *_repetition(), *_evidence(), *_week(), *_training()]


@dataclass(frozen=True)
class Wrong:
    """One wrong call: what to call, and the argument that a refusal has to name."""

    function: object
    given: dict
    argument: str
    positional: tuple = ()

    def __call__(self):
        return self.function(*self.positional, **self.given)

    def __str__(self):
        return f"{self.function.__qualname__}({self.argument} = {type(self.given.get(self.argument)).__name__})"


def works(row):
    """The arguments with which a row of `CALLS` works."""
    return {argument: at.value for argument, at in row.given.items()}


def hostile(at):
    """What has to be refused for an `Argument`."""
    wrong = [*HOSTILE[at.kind](), *at.also]
    return wrong[1:] if at.optional and wrong[0] is None else wrong


def taken(function):
    """The parameters of a function, without its own self."""
    return [one for one in inspect.signature(function).parameters.values() if one.name != "self"]


def wrong_calls():
    """Every call that has to be refused, one after the other."""
    for row in CALLS:
        right = works(row)
        for argument, at in row.given.items():
            for value in hostile(at):
                named = "" if at.kind == "file" else at.called or argument
                yield Wrong(row.function, right | {argument: value}, named, row.positional)
        yield Wrong(row.function, right | {"no_such_argument": 1}, "no_such_argument", row.positional)
        yield Wrong(row.function, right, "", (1,) * 40)
        if any(one.default is one.empty and one.kind is one.POSITIONAL_OR_KEYWORD for one in taken(row.function)):
            yield Wrong(row.function, {}, "", ())
    for argument, odd in ODD:
        yield Wrong(odd, {}, argument)


def _lifter(**changed):
    return sm.Lifter(**{"sex": "men"} | {one: getattr(CROWD, one) for one in sm.people.MEASURES} | changed)


HUGE = np.broadcast_to(1.0, (10**6, 10**6))
ODD = [  # the argument that has to be named, and the call
    ("pull_angle", lambda: sm.tape_law(200.0, 0.1, 0.1, 90)),
    ("pull_angle", lambda: sm.tape_law_margin(200.0, 90)),
    ("grip_ratio", lambda: sm.mechanics.hand_path(MAN, MANY, 5)),
    ("grip_ratio", lambda: sm.mechanics.rep_mechanics(MAN, MANY, 5)),
    ("w", lambda: sm.tape_law(200.0, [0.1, 0.1, 0.1], [0.1, 0.1], 0.0)),
    ("w", lambda: sm.tape_law(200.0, 10, 0.1, 0.0)),
    ("", lambda: _lifter(mass=np.array([80.0, 81.0]))),
    ("", lambda: _lifter(mass=80.0)),
    ("lifter", lambda: sm.rep(_lifter(**{one: np.ones((1, 1)) * getattr(MAN, one) for one in sm.people.MEASURES}), PULL)),
    ("field", lambda: PULL.change(grip=1.5)),
    ("field", lambda: PULL.change(**{"no such field": 1})),
    ("load_kg", lambda: PULL.change(load_kg=None)),
    ("load_kg", lambda: sm.Pull("x", 0.0, "upper chest", load_kg=None)),
    ("pull", lambda: sm.pulls["nonsense"]),
    ("pull", lambda: sm.pulls[None]),
    ("pull", lambda: sm.pulls[1]),
    ("pull", lambda: sm.pulls[PULL]),
    ("pull", lambda: sm.pulls[["front pulldown"]]),
    ("measure", lambda: sm.Lifter.from_measures("men", height=1.8)),
    ("measure", lambda: sm.expected_measures("men", waist=0.9)),
    ("grip_ratio", lambda: sm.sweep(MAN, PULL, grip_ratio=np.broadcast_to(1.0, 10**8))),
    ("grip_ratio", lambda: sm.sweep(MAN, PULL, grip_ratio=HUGE)),
    ("grip_ratio", lambda: sm.sweep(MAN, PULL, points=10_001, grip_ratio=np.linspace(1, 2, 10**5))),
    ("field", lambda: sm.sweep(MAN, PULL, grip=[1.0])),
    ("field", lambda: sm.sweep(MAN, PULL, hands=[1, 2])),
    ("sex", lambda: sm.sweep(MAN, PULL, sex=["men"])),
    ("stature", lambda: sm.sweep(CROWD, PULL, stature=[1.7, 1.8])),
    ("option", lambda: sm.rep(MAN, PULL, point=5)),
    ("strength", lambda: sm.rep(CROWD, PULL, strength=sm.Strength(*[np.ones(2)] * 4, ""))),
    ("strength", lambda: sm.rep(MAN, PULL, strength=np.ones(2))),
    ("elevation", lambda: sm.moment_arm("latissimus dorsi middle", [0.1, 0.2, 0.3], [0.1, 0.2], "extension")),
    ("elevation", lambda: sm.held_weight(MAN, 5.0, [0.1, 0.2, 0.3], [0.1, 0.2])),
    ("elevation", lambda: sm.moment_arm("latissimus dorsi middle", 45, 0.0, "extension")),
    ("first", lambda: sm.evidence.difference_within([1, 2], [1, 2, 3], 1, 1, 12, 0.5)),
    ("n", lambda: sm.evidence.power_of([8, 9, 10], [0.1, 0.2])),
    ("variances", lambda: sm.evidence.random_effects([0.1, 0.2, 0.3], [0.1, 0.1])),
    ("trials", lambda: sm.evidence.random_effects([0.1, 0.2], [0.1, 0.1])),
    ("factor", lambda: sm.Strength(1.0, 2.0, 3.0, 1.5, "a test")),
    ("factor", lambda: sm.Strength(np.ones(3), np.ones(2), np.ones(3), 1.5, "a test")),
    ("days", lambda: sm.Client(MAN, days=0)),
    ("days", lambda: sm.Client(MAN, days=7)),
    ("known", lambda: sm.Client(MAN, known=(sm.week.Known("chin-up", 500.0, 5),))),
    ("cleared", lambda: sm.Client(MAN, health={sm.week.questions()[0].name: "cleared"})),
    ("torque", lambda: sm.repetition.from_torques(MAN, rotation=50.0)),
    ("point", lambda: sm.repetition.activation_at(MAN, PULL, REP, 99)),
    ("point", lambda: sm.repetition.torque_polygon(MAN, PULL, REP, -9)),
    ("names", lambda: sm.people.means("men", "nonsense")),
    ("load_kg", lambda: sm.work_done(MAN, PULL.change(load_kg=500.0))),
]  # fmt: skip


def outcome(wrong):
    """What a call ended in: "refused", "accepted", or what was wrong with its refusal."""
    try:
        with np.errstate(all="ignore"):
            wrong()
    except sm.InputError as refusal:
        said = str(refusal)
        if "\n" in said or not said.isprintable() or len(said) > LONGEST or "Traceback" in said:
            return "refused, but not in one short line"
        if refusal.field not in said or wrong.argument not in (*said.split(), refusal.field, ""):
            named = wrong.argument in said
            return "refused" if named else "refused, but the argument is not named"
        return "refused"
    except Exception as error:
        return f"raw {type(error).__name__}"
    return "accepted"
