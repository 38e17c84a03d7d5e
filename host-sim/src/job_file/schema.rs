//! Every key of a job file: the one list that the reader, its messages and `docs/job-file.md` share.

/// One table of the file and its keys.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Table {
    /// The table's path, empty for the top of the file.
    pub path: &'static str,
    /// What may stand in it.
    pub keys: &'static [Key],
}

/// One key.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Key {
    /// Its name inside its table.
    pub name: &'static str,
    /// What its value must be.
    pub kind: Kind,
    /// Whether the file is wrong without it.
    pub required: bool,
}

/// What a value must be.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// Any text.
    Text,
    /// One word of a list; the list is the reader's.
    Word,
    /// A number with its unit, as text. Carries an example.
    Quantity(&'static str),
    /// So many quantities. Carries how many and an example of the whole.
    Quantities(usize, &'static str),
    /// So many plain numbers. Carries how many and an example of the whole.
    Numbers(usize, &'static str),
    /// Names of faces, as one text. Carries an example.
    Faces(&'static str),
    /// A table of its own.
    Table,
    /// A table that may be given several times.
    Tables,
    /// Part of the format, but nothing in this version computes it: an error that says so.
    Planned,
}

const fn required(name: &'static str, kind: Kind) -> Key {
    Key {
        name,
        kind,
        required: true,
    }
}

const fn optional(name: &'static str, kind: Kind) -> Key {
    Key {
        name,
        kind,
        required: false,
    }
}

const fn planned(name: &'static str) -> Key {
    Key {
        name,
        kind: Kind::Planned,
        required: false,
    }
}

/// The top of the file.
pub const TOP: Table = Table {
    path: "",
    keys: &[
        required("name", Kind::Text),
        required("shape", Kind::Table),
        required("stock", Kind::Table),
        optional("joints", Kind::Table),
        optional("fill", Kind::Table),
        optional("arc", Kind::Table),
        optional("weld", Kind::Table),
        planned("fitting"),
        planned("baffle"),
        planned("use"),
    ],
};

/// `[shape]`.
pub const SHAPE: Table = Table {
    path: "shape",
    keys: &[
        required("kind", Kind::Word),
        optional("sized", Kind::Word),
        required("length", Kind::Quantity("320 mm")),
        required("width", Kind::Quantity("180 mm")),
        required("height", Kind::Quantity("160 mm")),
        optional("cut", Kind::Tables),
        planned("outline"),
        planned("base"),
        planned("top"),
        planned("shift"),
        planned("diameter"),
        planned("axis"),
        planned("ends"),
    ],
};

/// `[[shape.cut]]`; which keys belong together is the reader's matter.
pub const CUT: Table = Table {
    path: "shape.cut",
    keys: &[
        optional("edge", Kind::Faces("top back")),
        optional("corner", Kind::Faces("right back top")),
        optional("legs", Kind::Quantities(2, "[\"20 mm\", \"20 mm\"]")),
        optional("normal", Kind::Numbers(3, "[0, 1, 1]")),
        optional(
            "through",
            Kind::Quantities(3, "[\"0 mm\", \"140 mm\", \"160 mm\"]"),
        ),
    ],
};

/// `[stock]`.
pub const STOCK: Table = Table {
    path: "stock",
    keys: &[
        required("alloy", Kind::Word),
        optional("temper", Kind::Word),
        required("thickness", Kind::Quantity("2 mm")),
        optional("faces", Kind::Table),
    ],
};

/// `[joints]`.
pub const JOINTS: Table = Table {
    path: "joints",
    keys: &[
        optional("default", Kind::Word),
        planned("folds"),
        planned("bend_radius"),
        planned("k_factor"),
    ],
};

/// `[fill]`.
pub const FILL: Table = Table {
    path: "fill",
    keys: &[
        optional("headspace", Kind::Quantity("5 %")),
        optional("target", Kind::Quantity("6.5 L")),
        optional("target_of", Kind::Word),
        optional("pick_up", Kind::Quantity("15 mm")),
        optional("dip_step", Kind::Quantity("10 mm")),
        planned("liquid"),
    ],
};

/// `[arc]`.
pub const ARC: Table = Table {
    path: "arc",
    keys: &[
        optional("process", Kind::Word),
        optional("current", Kind::Quantity("95 A")),
        optional("voltage", Kind::Quantity("14 V")),
        optional("travel", Kind::Quantity("180 mm/min")),
        optional("efficiency", Kind::Quantity("60 %")),
    ],
};

/// `[weld]`.
pub const WELD: Table = Table {
    path: "weld",
    keys: &[
        optional("stitch_max", Kind::Quantity("80 mm")),
        optional("tack_pitch", Kind::Quantity("50 mm")),
        planned("interpass_max"),
        planned("ambient"),
        planned("emissivity"),
        planned("move"),
    ],
};

/// Every table with fixed keys. `[stock.faces]`, whose keys are faces, is the reader's own.
pub const TABLES: &[Table] = &[TOP, SHAPE, CUT, STOCK, JOINTS, FILL, ARC, WELD];

impl Table {
    /// The key of that name.
    #[must_use]
    pub fn key(&self, name: &str) -> Option<&'static Key> {
        self.keys.iter().find(|key| key.name == name)
    }

    /// The path of one of its keys.
    #[must_use]
    pub fn path_of(&self, name: &str) -> String {
        if self.path.is_empty() {
            name.to_owned()
        } else {
            format!("{}.{name}", self.path)
        }
    }
}
