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
    /// A plain number. Carries an example.
    Number(&'static str),
    /// Names of faces, as one text. Carries an example.
    Faces(&'static str),
    /// A list of edges, each as the names of its two faces. Carries an example.
    Edges(&'static str),
    /// A list of faces. Carries an example.
    FaceList(&'static str),
    /// A list of names of fittings, or of pairs of them. Carries an example.
    Names(&'static str),
    /// The points of an outline.
    Points,
    /// A table of its own.
    Table,
    /// A table that may be given several times.
    Tables,
    /// A number with a unit that is no quantity of the core, as text. Carries an example.
    Measure(&'static str),
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
        optional("fitting", Kind::Tables),
        optional("baffle", Kind::Tables),
        optional("use", Kind::Table),
        optional("supply", Kind::Table),
        optional("purge", Kind::Table),
    ],
};

/// `[shape]`.
pub const SHAPE: Table = Table {
    path: "shape",
    keys: &[
        required("kind", Kind::Word),
        optional("sized", Kind::Word),
        optional("length", Kind::Quantity("320 mm")),
        optional("width", Kind::Quantity("180 mm")),
        optional("height", Kind::Quantity("160 mm")),
        optional("cut", Kind::Tables),
        optional("outline", Kind::Points),
        optional("base", Kind::Quantities(2, "[\"400 mm\", \"300 mm\"]")),
        optional("top", Kind::Quantities(2, "[\"250 mm\", \"180 mm\"]")),
        optional("shift", Kind::Quantities(2, "[\"0 mm\", \"20 mm\"]")),
        optional("diameter", Kind::Quantity("200 mm")),
        optional("axis", Kind::Word),
        optional("ends", Kind::Word),
        optional("crown", Kind::Quantity("200 mm")),
        optional("knuckle", Kind::Quantity("20 mm")),
    ],
};

/// The kinds of body that a key of `[shape]` belongs to; `None` for a key of all kinds.
#[must_use]
pub fn kind_of_key(name: &str) -> Option<&'static [&'static str]> {
    Some(match name {
        "length" => &["block", "drum"],
        "width" => &["block", "profile"],
        "height" => &["block", "taper"],
        "cut" => &["block"],
        "outline" => &["profile"],
        "base" | "top" | "shift" => &["taper"],
        "diameter" | "axis" | "ends" | "crown" | "knuckle" => &["drum"],
        _ => return None,
    })
}

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
        optional("coating", Kind::Word),
        optional("coating_removed", Kind::Quantity("60 mm")),
    ],
};

/// `[joints]`.
pub const JOINTS: Table = Table {
    path: "joints",
    keys: &[
        optional("default", Kind::Word),
        optional("edges", Kind::Table),
        optional("folds", Kind::Edges("[\"bottom front\", \"bottom back\"]")),
        optional("bend_radius", Kind::Quantity("3 mm")),
        optional("k_factor", Kind::Number("0.42")),
        optional("lap", Kind::Quantity("12 mm")),
        optional("gap", Kind::Quantity("0.5 mm")),
    ],
};

/// `[[fitting]]`.
pub const FITTING: Table = Table {
    path: "fitting",
    keys: &[
        required("name", Kind::Text),
        required("face", Kind::Word),
        required("at", Kind::Quantities(2, "[\"80 mm\", \"60 mm\"]")),
        required("bore", Kind::Quantity("38 mm")),
        optional("outer", Kind::Quantity("44 mm")),
        optional("stand_in", Kind::Quantity("6 mm")),
    ],
};

/// `[[baffle]]`.
pub const BAFFLE: Table = Table {
    path: "baffle",
    keys: &[
        required("across", Kind::Word),
        required("at", Kind::Quantity("160 mm")),
        optional("thickness", Kind::Quantity("2 mm")),
        optional("clearance", Kind::Quantity("1 mm")),
        optional("gap_below", Kind::Quantity("20 mm")),
        optional("gap_above", Kind::Quantity("30 mm")),
        optional("corner_notch", Kind::Quantity("15 mm")),
        optional("hole", Kind::Tables),
        optional("notch", Kind::Tables),
        optional("free", Kind::FaceList("[\"top\"]")),
        optional("plugs", Kind::FaceList("[\"top\"]")),
        optional("weld_length", Kind::Quantity("40 mm")),
        optional("weld_gap", Kind::Quantity("60 mm")),
        optional("flange", Kind::Quantity("20 mm")),
        optional("flanged", Kind::FaceList("[\"bottom\"]")),
        optional("flange_side", Kind::Word),
    ],
};

/// `[[baffle.notch]]`.
pub const NOTCH: Table = Table {
    path: "baffle.notch",
    keys: &[
        required("at", Kind::Quantities(2, "[\"90 mm\", \"2 mm\"]")),
        required("width", Kind::Quantity("40 mm")),
        required("depth", Kind::Quantity("20 mm")),
    ],
};

/// `[[baffle.hole]]`.
pub const HOLE: Table = Table {
    path: "baffle.hole",
    keys: &[
        required("at", Kind::Quantities(2, "[\"90 mm\", \"40 mm\"]")),
        required("diameter", Kind::Quantity("30 mm")),
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
        optional("pick_up_at", Kind::Quantities(2, "[\"40 mm\", \"90 mm\"]")),
        optional("neck", Kind::Quantity("140 mm")),
        optional("pitch", Kind::Quantity("10 deg")),
        optional("roll", Kind::Quantity("10 deg")),
        optional("dip_volume", Kind::Quantity("0.5 L")),
        optional("dip_at", Kind::Quantities(2, "[\"40 mm\", \"90 mm\"]")),
        optional("liquid", Kind::Word),
        optional("fill_temperature", Kind::Quantity("15 °C")),
        optional("hottest", Kind::Quantity("90 °C")),
        optional("draws", Kind::Names("[\"outlet\"]")),
        optional("balance", Kind::Names("[[\"outlet\", \"drain\"]]")),
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
        optional("power_source", Kind::Tables),
        optional("torch", Kind::Tables),
        optional("balance", Kind::Quantity("70 %")),
        optional("frequency", Kind::Measure("120 Hz")),
        optional("negative", Kind::Table),
        optional("positive", Kind::Table),
        optional("tungsten", Kind::Quantity("2.4 mm")),
        optional("nozzle", Kind::Quantity("9.5 mm")),
        optional("wire", Kind::Quantity("1.0 mm")),
        optional("wire_feed", Kind::Measure("5 m/min")),
        optional("transfer", Kind::Word),
        optional("stick_out", Kind::Quantity("12 mm")),
        optional("gas", Kind::Word),
    ],
};

/// `[[arc.power_source]]`.
pub const POWER_SOURCE: Table = Table {
    path: "arc.power_source",
    keys: &[
        required("current", Kind::Quantity("200 A")),
        required("duty", Kind::Quantity("60 %")),
    ],
};

/// `[[arc.torch]]`.
pub const TORCH: Table = Table {
    path: "arc.torch",
    keys: &[
        required("current", Kind::Quantity("150 A")),
        required("duty", Kind::Quantity("35 %")),
        optional("process", Kind::Word),
    ],
};

/// `[arc.negative]`.
pub const NEGATIVE: Table = Table {
    path: "arc.negative",
    keys: LEVEL,
};

/// `[arc.positive]`.
pub const POSITIVE: Table = Table {
    path: "arc.positive",
    keys: LEVEL,
};

const LEVEL: &[Key] = &[
    required("current", Kind::Quantity("90 A")),
    required("voltage", Kind::Quantity("12 V")),
];

/// `[supply]`.
pub const SUPPLY: Table = Table {
    path: "supply",
    keys: &[
        optional("filler", Kind::Word),
        optional("rod_diameter", Kind::Quantity("2.4 mm")),
        optional("rod_length", Kind::Quantity("1 m")),
        optional("stub", Kind::Quantity("50 mm")),
        optional("waste", Kind::Quantity("10 %")),
        optional("gas_flow", Kind::Measure("9 L/min")),
        optional("pre_flow", Kind::Quantity("0.5 s")),
        optional("post_flow", Kind::Quantity("9 s")),
        optional("cylinder", Kind::Quantity("20 L")),
        optional("cylinder_pressure", Kind::Quantity("200 bar")),
        optional("other_time", Kind::Quantity("4 h")),
        optional("spool", Kind::Measure("5 kg")),
        optional("prices", Kind::Table),
    ],
};

/// `[supply.prices]`.
pub const PRICES: Table = Table {
    path: "supply.prices",
    keys: &[
        required("currency", Kind::Text),
        optional("sheet", Kind::Number("9.5")),
        optional("filler", Kind::Number("32")),
        optional("gas", Kind::Number("14")),
        optional("labour", Kind::Number("40")),
        optional("electricity", Kind::Number("0.3")),
    ],
};

/// `[purge]`.
pub const PURGE: Table = Table {
    path: "purge",
    keys: &[
        optional("flow", Kind::Measure("15 L/min")),
        optional("hold_flow", Kind::Measure("5 L/min")),
        optional("oxygen", Kind::Measure("0.1 %")),
    ],
};

/// `[weld]`.
pub const WELD: Table = Table {
    path: "weld",
    keys: &[
        optional("stitch_max", Kind::Quantity("80 mm")),
        optional("tack_pitch", Kind::Quantity("50 mm")),
        optional("interpass_max", Kind::Quantity("120 °C")),
        optional("ambient", Kind::Quantity("18 °C")),
        optional("emissivity", Kind::Number("0.1")),
        optional("move", Kind::Quantity("10 s")),
        optional("back_step", Kind::Word),
        optional("opening", Kind::Quantity("120 mm")),
        optional("reach", Kind::Quantity("500 mm")),
        optional("shrink_allowance", Kind::Word),
        optional("shrink_by", Kind::Quantity("0.8 mm")),
    ],
};

/// `[use]`.
pub const USE: Table = Table {
    path: "use",
    keys: &[
        optional("temperature", Kind::Quantity("85 °C")),
        optional("pressure", Kind::Quantity("20 kPa")),
        optional("acceleration", Kind::Numbers(3, "[1, 0.5, 2]")),
        optional("anodised", Kind::Word),
        optional("mount", Kind::Tables),
    ],
};

/// `[[use.mount]]`.
pub const MOUNT: Table = Table {
    path: "use.mount",
    keys: &[required(
        "at",
        Kind::Quantities(3, "[\"20 mm\", \"20 mm\", \"0 mm\"]"),
    )],
};

/// Every table with fixed keys. `[stock.faces]`, whose keys are faces, is the reader's own.
pub const TABLES: &[Table] = &[
    TOP,
    SHAPE,
    CUT,
    STOCK,
    JOINTS,
    FITTING,
    BAFFLE,
    NOTCH,
    HOLE,
    FILL,
    ARC,
    WELD,
    USE,
    MOUNT,
    SUPPLY,
    PRICES,
    PURGE,
    POWER_SOURCE,
    TORCH,
    NEGATIVE,
    POSITIVE,
];

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
