//! What the figures of a row of `data` are called on the page.

/// The name and unit of a figure by its key in the row; empty where the row has one figure only and is named after it.
#[must_use]
pub fn of(key: &str) -> Option<&'static str> {
    // A place in a list counts as the list.
    let key = key.split('/').next().unwrap_or(key);
    NAMES
        .iter()
        .find(|(own, _)| *own == key)
        .map(|(_, name)| *name)
}

const NAMES: [(&str, &str); 144] = [
    ("", ""),
    // Geometry.
    ("volume_mm3", "volume, mm³"),
    ("volume_in3", "volume, in³"),
    ("volume", "volume"),
    ("dihedral_deg", "dihedral angle, °"),
    ("US_gal", "contents, US gal"),
    ("depth_over_D", "depth / D"),
    ("V_over_D3", "volume / D³"),
    ("area_over_D2", "area / D²"),
    ("h_over_D", "depth / D"),
    ("fill_fraction", "share of the whole"),
    ("V_at_filler_l", "full to the filler, L"),
    ("dead_low_outlet_l", "left behind, outlet low, L"),
    ("dead_high_outlet_l", "left behind, outlet high, L"),
    ("usable_low_outlet_l", "usable, outlet low, L"),
    ("usable_high_outlet_l", "usable, outlet high, L"),
    ("volume_l", "volume, L"),
    ("depth_low", "depth at the low end, mm"),
    ("depth_high", "depth at the high end, mm"),
    ("edge_to_edge_deduct_each", "open corner gives way, mm"),
    ("closed_corner_deduct_A", "closed corner, through, mm"),
    ("closed_corner_deduct_B", "closed corner gives way, mm"),
    ("tee_deduct_B_bevelled_outer_face", "tee gives way, mm"),
    ("tee_bevel_from_square_deg", "bevel of a tee, °"),
    // Bends.
    ("k", "k"),
    ("v", "compensation, mm"),
    ("K", "K"),
    ("BA", "allowance, mm"),
    ("OSSB", "outside setback, mm"),
    ("BD", "deduction, mm"),
    ("L", "L"),
    // Units.
    ("US_gal_m3", "m³"),
    ("imp_gal_m3", "m³"),
    ("imp_qt_m3", "m³"),
    ("US_gal_in3", "in³"),
    ("imp_gal_in3", "in³"),
    ("lb_kg", "kg"),
    ("psi_Pa", "Pa"),
    ("inHg_Pa_conv", "Pa"),
    ("atm", "Pa"),
    ("bar", "Pa"),
    ("ft3_m3", "m³"),
    ("imp_floz_ml", "mL"),
    ("inch", "in"),
    ("ussg_inch", "by the US Standard, in"),
    // Liquids.
    ("alpha15", "coefficient at 15 °C, 1/K"),
    ("VCF40", "correction from 40 °C"),
    ("VCF60", "correction from 60 °C"),
    ("VCF100", "correction from 100 °C"),
    (
        "dT_K_from15_filling_5pct_ullage",
        "warming that fills a headspace of 5 %, K",
    ),
    ("rho", "density, kg/m³"),
    ("beta20_1e6", "expansion at 20 °C, 1e-6/K"),
    ("beta60_1e6", "expansion at 60 °C, 1e-6/K"),
    ("beta80_1e6", "expansion at 80 °C, 1e-6/K"),
    ("V95_over_V20", "volume at 95 °C / at 20 °C"),
    ("rho20", "density at 20 °C, kg/m³"),
    ("rho95", "density at 95 °C, kg/m³"),
    ("expansion_20_95", "growth from 20 to 95 °C"),
    // Plates and walls.
    ("wD_qb4", "w D/(q b⁴)"),
    ("alpha_yEt3_qb4", "w E t³/(q b⁴)"),
    ("M_short_qb2", "M/(q b²)"),
    ("beta_sigma_t2_qb2", "σ t²/(q b²)"),
    ("beta1_edge_long", "σ t²/(q b²) at the long edge"),
    ("wmax", "highest w D/(q a⁴)"),
    ("Mx_max", "highest M/(q a²)"),
    ("My_max", "highest M/(q a²)"),
    ("edge_x_a_Mx", "highest M/(q a²)"),
    ("side_edge_My_min", "highest M/(q a²)"),
    ("w_D_qa4", "w D/(q a⁴)"),
    ("sigma_t2_qa2", "σ t²/(q a²)"),
    ("sigma_edge_t2_qa2", "σ t²/(q a²) at the edge"),
    ("w_over_t", "w/t"),
    ("sigma_mem_centre_b2_Et2", "pull in the middle, σ b²/(E t²)"),
    ("sigma_total_centre", "stress in the middle, σ b²/(E t²)"),
    (
        "sigma_total_long_edge",
        "stress at the edge by bending alone, σ b²/(E t²)",
    ),
    ("w_centroid_D_qh4", "w D/(q h⁴), bent as its rectangle"),
    ("M_centroid_qh2", "M/(q h²), bent as its rectangle"),
    ("w_linear_ss", "bulge, supported, mm"),
    ("sigma_linear_ss", "stress, supported, N/mm²"),
    ("w_linear_cl", "bulge, clamped, mm"),
    ("sigma_edge_cl", "stress, clamped, N/mm²"),
    ("ss_w_mm", "bulge, supported, mm"),
    ("ss_centre_MPa", "stress, supported, N/mm²"),
    ("cl_w_mm", "bulge, clamped, mm"),
    ("cl_edge_MPa", "stress by bending alone, clamped, N/mm²"),
    ("p", "pressure, Pa"),
    ("F_N", "force, N"),
    ("sigma_comp", "stress of comparison, N/mm²"),
    ("util", "use"),
    ("allow", "allowed, N/mm²"),
    ("kg_per_m2", "kg/m²"),
    // Leak tests.
    ("E_J", "energy, J"),
    ("Brode_J", "energy by the bound, J"),
    ("n_mol_s", "leak, mol/s"),
    ("apparent_Q", "leak by the gauge alone, Pa m³/s"),
    ("true_Q", "leak made good, Pa m³/s"),
    ("dp", "fall, Pa"),
    ("p_max_psi", "pressure, psi"),
    ("p_max_kPa", "pressure, kPa"),
    ("STEL_ppm", "limit of 15 minutes, ppm"),
    // Heat.
    ("Q_kJ_mm", "heat input, kJ/mm"),
    ("arc_energy_J_mm_60UI_over_S", "arc energy, J/mm"),
    ("HI_J_mm", "arc energy, J/mm"),
    ("P_W", "power, W"),
    ("UrmsIrms_W", "by the meters, W"),
    ("dT_K", "rise, K"),
    ("dTpeak_K", "rise, K"),
    ("width_full_mm", "width, mm"),
    ("Hnet", "heat input, J/mm"),
    ("tau", "relative thickness"),
    ("Ra", "Rayleigh number"),
    ("Nu", "Nusselt number"),
    ("h", "film, W/(m² K)"),
    ("q_W", "loss, W"),
    ("Q_W", "loss, W"),
    ("dT_mid_K", "rise, K"),
    ("t_s", "time, s"),
    ("mean", "mean of all, our band"),
    ("range_published", "all published"),
    ("T_max_C", "highest, °C"),
    ("hold_max_min", "time there, min"),
    ("avoid_C", "range to avoid, °C"),
    ("min_preheat_C", "least, °C"),
    // What is set and bought.
    ("k_W_mK", "conductivity, W/(m K)"),
    (
        "SmithPalmer_W_mK",
        "conductivity by the electrical one, W/(m K)",
    ),
    ("Ftu_MPa", "ultimate strength, N/mm²"),
    ("Fty_MPa", "yield strength, N/mm²"),
    ("Rm_MPa", "ultimate strength, N/mm²"),
    ("Rp02_min_MPa", "proof strength, N/mm²"),
    ("S_mm_0.18", "by 0.18 A/t, mm"),
    ("S_mm_0.20", "by 0.2 A/t, mm"),
    ("dL_mm", "mm"),
    ("I_A", "current, A"),
    ("v_mm_min", "travel, mm/min"),
    ("filler_mm", "rod, mm"),
    ("nozzle_mm", "nozzle, mm"),
    ("Ar_L_min", "argon, L/min"),
    ("U2_V", "V"),
    ("X", "share"),
    ("area_ratio", "ratio of their areas"),
    ("g_per_m", "g/m"),
    (
        "L_at_15C_101325Pa",
        "contents at 15 °C and one atmosphere, L",
    ),
    ("Mg_with_5356", "magnesium with 5356, %"),
    ("Si_with_4043", "silicon with 4043, %"),
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_key_has_one_name() {
        for (n, (key, _)) in NAMES.iter().enumerate() {
            assert!(NAMES[..n].iter().all(|(other, _)| other != key), "{key}");
        }
        assert_eq!(of("rho/3"), Some("density, kg/m³"));
        assert_eq!(of("rh"), None);
    }
}
