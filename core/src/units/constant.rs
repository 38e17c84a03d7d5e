//! Constants of physics that several parts share.

/// Standard gravity in m/s²: 3rd CGPM, 1901; ISO 80000-3, NIST SP 811 appendix B (from memory).
pub const GRAVITY: f64 = 9.806_65;

/// The molar gas constant in J/(mol K): exact since the SI of 2019 (CODATA 2018, from memory). 40 CFR
/// 1065.644 prints 8.314472, an older figure, 1.1 millionths higher.
pub const GAS: f64 = 8.314_462_618;

/// Density of water in kg/m³, of a test and of a tank whose job names no liquid; round and slightly high, on the
/// careful side.
pub const WATER: f64 = 1_000.0;
