"""What people say of kilograms and of where the model is wrong, in the words of a2: rows for choices, wrong texts with their slip."""

WAYS_FOR = (  # who, what is best, wrong choices, the reason, a wrong reason
    (
        "knows the pulldown well, has clean form and no complaint. You want to know the largest load",
        "one hard set of 5 to 10, with somebody close by",
        (("a heaviest single", "load as target", "A single is risky, and one hard set tells you nearly as much."),
         ("body mass, and nothing else", "one number for a span", "Body mass alone says little.")),
        "one hard set leaves the least doubt, and it is less risky than a single",
        ("a set tells the exact kilogram of the maximum", "one number for a span", "It gives a span."),
    ),
    (
        "is new to the pulldown",
        "a light set, stopped early, and no number yet",
        (("one hard set of 5 to 10", "caution skipped", "A hard set needs a client who knows the lift."),
         ("the largest load, from the model", "load as target", "A load from the model is never a target.")),
        "a hard set needs a client who knows the lift",
        ("body mass already gives the factor closely", "one number for a span", "It leaves a span of more than twice."),
    ),
    (
        "comes from a clinic with a dynamometer's torque, and has a hard set of pulldowns in the log. Take one "
        "for the factor",
        "the hard set",
        (("the dynamometer's torque", "factor forgotten",
          "It has to be multiplied by a bridge that nobody can explain."),
         ("sex and body mass", "one number for a span", "They leave the widest span of all.")),
        "it is the very pull that you ask about",
        ("a machine always measures less than people can do", "proof from nowhere",
         "We do not know why the two differ."),
    ),
    (
        "has done one hard set, and the equations give a 1RM from 72 to 77 kg. You plan the first week's loads",
        "plan from 72 kg",
        (("plan from 77 kg", "high end first", ""),
         ("let the client try 75 kg", "load as target", "Nobody should try such a load.")),
        "the equations describe an average lifter, not this client",
        ("the low end is what the seven equations agree on", "span misread",
         "They do not agree: that is why there is a span."),
    ),
    (
        "feels a sharp pain in the shoulder at the fifth repetition of a hard set",
        "stop, and send the client to a licensed clinician",
        (("finish the set, to have a number", "caution skipped", ""),
         ("go on with a lighter set at once", "caution skipped", "")),
        "pain is a reason to stop, whatever the number is worth",
        ("five repetitions are too few for any equation", "span misread",
         "Five would do for the equations. The pain is the reason."),
    ),
)  # fmt: skip
SAY_OF_KILOGRAMS = (
    "The model's kilograms are set to what college lifters pulled.",
    "The model's kilograms are no prediction. Only ratios between pulls are.",
    "A factor from a dynamometer is multiplied by a bridge before the model pulls.",
    "Factor 2 means twice as strong as the young adult of the muscle table.",
)
SAY_NOT_OF_KILOGRAMS = (
    ("The model works out a client's kilograms from the muscles alone.", "model for measurement",
     "Its kilograms are set to what college lifters pulled."),
    ("Factor 1 is the average man among the college lifters.", "one number for a span",
     "Factor 1 is the young adult of the muscle table, an average of both sexes."),
    ("The bridge is there because a moving bar has speed: that is proved.", "proof from nowhere",
     "Nobody knows why the bridge is needed. Speed is one of three things that may play a part."),
    ("From a man's body mass you know his factor within a tenth.", "one number for a span",
     "The high end of that factor is more than twice its low end."),
    ("The seven equations were made from this client's kind of body.", "proof from nowhere",
     "All seven describe an average lifter, not your client."),
)  # fmt: skip
SAY_OF_MISSES = (
    "Pulling the arm down, from the side to 60°: you may use the torque as a rough size.",
    "A grip of 2 × against 1.5 ×: the model loses too much, in all four ways to ask it.",
    "A grip of 1 × against 1.5 ×: its two opinions disagree, so there is no verdict.",
    "A shrug upwards: the model is far too weak, so do not use it for that.",
)
SAY_NOT_OF_MISSES = (
    ("All bands contain what the men did, so the model has passed the test.", "span misread",
     "The bands are over three times as wide as the effect. Almost anything fits into them."),
    ("In the plane, on a bar, the narrow grip is right: that proves the model.", "one opinion heard",
     "About all axes the ratio is far too high. When one opinion is right and the other wrong, the right one "
     "proves little."),
    ("A pull-up and a pulldown hold the same load, as the model says.", "model for measurement",
     "People lifted a quarter to a third more in the pull-up."),
    ("Ask the model in which position the shoulder blade is strongest.", "model for measurement",
     "Downward and backward it gets stronger along the way, while people got weaker."),
    ("For raising the arm ahead the model is strong enough.", "model for measurement",
     "It makes 45 N m with the arm hanging. Men made 90 N m."),
    ("Quote the model for a few per cent between two grips.", "model for measurement",
     "Its bands are far too wide for a few per cent."),
)  # fmt: skip
