//! Pens, grounds, hatches and lettering: the few ways in which things differ.

/// Colors by what they are for.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) enum Ink {
    Paper,
    Sunk,
    /// What is drawn and said first.
    Strong,
    /// The second voice, and what lies beyond.
    Quiet,
    Hair,
    Mark,
    Wash,
}

impl Ink {
    /// Name on a screen, its light value, and the value on white paper.
    pub(super) const fn names(self) -> (&'static str, &'static str, &'static str) {
        match self {
            Self::Paper => ("--paper", "#F5EFE1", "#FFFFFF"),
            Self::Sunk => ("--sunk", "#E9E0CD", "#ECE8DE"),
            Self::Strong => ("--ink", "#221D17", "#1D1915"),
            Self::Quiet => ("--ink-2", "#4B4337", "#4B4337"),
            Self::Hair => ("--hair", "#CBBFA8", "#B9AE99"),
            Self::Mark => ("--mark", "#4B2394", "#4B2394"),
            Self::Wash => ("--mark-wash", "#DFD3EE", "#DFD3EE"),
        }
    }
}

/// Fields of strokes or dots; each stands for something that is lettered beside it.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) enum Hatch {
    /// 45°: wood and board cut, what is there.
    Wood,
    /// 45°, dense: the shell of a bowl, every second part.
    Dense,
    /// The other 45°.
    Back,
    /// Dots: stone, electrician.
    Dots,
    /// Squares: ducts.
    Grid,
    /// 45° in the pencil: planned.
    Pencil,
}

pub(super) const HATCHES: [(Hatch, char); 6] = [
    (Hatch::Wood, 'h'),
    (Hatch::Dense, 'd'),
    (Hatch::Back, 'x'),
    (Hatch::Dots, 's'),
    (Hatch::Grid, 'g'),
    (Hatch::Pencil, 'm'),
];

/// What a shape is filled with.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) enum Fill {
    None,
    Flat(Ink),
    /// A hatch on what lies below.
    Hatch(Hatch),
    /// A hatch on paper.
    Over(Hatch),
}

/// Strokes of a line.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(crate) enum Dash {
    Whole,
    /// 9-5: a limit, or what is not known.
    Limit,
    /// Dash and dot: a second limit.
    Second,
    /// 5-4: hidden behind.
    Hidden,
}

impl Dash {
    pub(super) const fn attribute(self) -> &'static str {
        match self {
            Self::Whole => "",
            Self::Limit => " stroke-dasharray=\"9 5\"",
            Self::Second => " stroke-dasharray=\"14 4 2 4\"",
            Self::Hidden => " stroke-dasharray=\"5 4\"",
        }
    }
}

/// A line's color, weight and strokes.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(crate) struct Pen {
    pub(crate) ink: Ink,
    pub(crate) weight: f64,
    pub(crate) dash: Dash,
}

impl Pen {
    /// Cut through, as the floor.
    pub(crate) const GROUND: Self = Self::whole(Ink::Strong, 2.5);
    pub(crate) const CUT: Self = Self::whole(Ink::Strong, 2.0);
    pub(crate) const SEEN: Self = Self::whole(Ink::Strong, 1.75);
    pub(crate) const BEYOND: Self = Self::whole(Ink::Quiet, 1.0);
    pub(crate) const HAIR: Self = Self::whole(Ink::Hair, 1.0);
    pub(crate) const HIDDEN: Self = Self { ink: Ink::Quiet, weight: 1.0, dash: Dash::Hidden };
    pub(crate) const LIMIT: Self = Self { ink: Ink::Strong, weight: 2.0, dash: Dash::Limit };
    pub(crate) const SECOND: Self = Self { ink: Ink::Quiet, weight: 1.25, dash: Dash::Second };
    /// The pencil: what is asked about.
    pub(crate) const SUBJECT: Self = Self::whole(Ink::Mark, 3.0);
    pub(crate) const SUBJECT_THIN: Self = Self::whole(Ink::Mark, 1.5);
    pub(crate) const SUBJECT_LIMIT: Self = Self { ink: Ink::Mark, weight: 2.0, dash: Dash::Limit };

    pub(crate) const fn whole(ink: Ink, weight: f64) -> Self {
        Self { ink, weight, dash: Dash::Whole }
    }
}

/// At which of its ends a text is held.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) enum Hold {
    Start,
    Middle,
    End,
}

/// How a text is set.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(crate) struct Letter {
    pub(crate) size: f64,
    pub(crate) ink: Ink,
    pub(crate) heavy: bool,
    pub(crate) hold: Hold,
    /// A field of paper under it, where it stands on lines.
    pub(crate) field: bool,
}

/// Lettering of a size, in ink, from its start.
pub(crate) const fn letter(size: f64) -> Letter {
    Letter { size, ink: Ink::Strong, heavy: false, hold: Hold::Start, field: false }
}

impl Letter {
    pub(crate) const fn heavy(self) -> Self {
        Self { heavy: true, ..self }
    }
    pub(crate) const fn quiet(self) -> Self {
        Self { ink: Ink::Quiet, ..self }
    }
    pub(crate) const fn mark(self) -> Self {
        Self { ink: Ink::Mark, ..self }
    }
    pub(crate) const fn ink(self, ink: Ink) -> Self {
        Self { ink, ..self }
    }
    pub(crate) const fn end(self) -> Self {
        Self { hold: Hold::End, ..self }
    }
    pub(crate) const fn middle(self) -> Self {
        Self { hold: Hold::Middle, ..self }
    }
    pub(crate) const fn field(self) -> Self {
        Self { field: true, ..self }
    }
}
