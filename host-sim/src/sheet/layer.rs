//! What a line on a piece means, and how it looks: one scheme for every kind of file.

/// What a line or word is for. Layer of a DXF file, group of an SVG file.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Layer {
    /// The outside of the piece.
    Cut,
    /// Holes through the piece.
    Holes,
    /// Fold towards the reader.
    BendUp,
    /// Fold away from the reader.
    BendDown,
    /// Scribe, do not cut.
    Mark,
    /// Words, for people only.
    Text,
}

impl Layer {
    /// All, in the order they are drawn.
    pub const ALL: [Self; 6] = [
        Self::Text,
        Self::Mark,
        Self::BendUp,
        Self::BendDown,
        Self::Holes,
        Self::Cut,
    ];

    /// Its name in files.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Cut => "CUT",
            Self::Holes => "HOLES",
            Self::BendUp => "BEND_UP",
            Self::BendDown => "BEND_DOWN",
            Self::Mark => "MARK",
            Self::Text => "TEXT",
        }
    }

    /// Its number among the 255 indexed colours of a DXF file: 7 is black or white, whichever shows;
    /// 1 red, 3 green, 4 cyan, 5 blue, 8 grey.
    pub const fn index(self) -> u8 {
        match self {
            Self::Cut => 7,
            Self::Holes => 4,
            Self::BendUp => 5,
            Self::BendDown => 1,
            Self::Mark => 3,
            Self::Text => 8,
        }
    }

    /// Its colour on white paper: red, green, blue. Dark enough to read when printed in grey.
    pub const fn rgb(self) -> [u8; 3] {
        match self {
            Self::Cut => [0, 0, 0],
            Self::Holes => [0, 96, 112],
            Self::BendUp => [20, 60, 190],
            Self::BendDown => [190, 25, 25],
            Self::Mark => [0, 80, 30],
            Self::Text => [70, 70, 70],
        }
    }

    /// Dashes and gaps in mm, empty for an unbroken line: the two folds differ without colour too.
    pub const fn dashes(self) -> &'static [f64] {
        match self {
            Self::BendUp => &[6.0, 2.0],
            Self::BendDown => &[6.0, 2.0, 1.0, 2.0],
            Self::Mark => &[2.0, 1.0],
            Self::Cut | Self::Holes | Self::Text => &[],
        }
    }

    /// Line width on paper, mm.
    pub const fn width(self) -> f64 {
        match self {
            Self::Cut => 0.35,
            Self::Holes | Self::BendUp | Self::BendDown | Self::Mark => 0.25,
            Self::Text => 0.18,
        }
    }

    /// The layer of a fold.
    pub const fn of_bend(up: bool) -> Self {
        if up { Self::BendUp } else { Self::BendDown }
    }
}
