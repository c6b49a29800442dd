//! The unit that a name ends in.

/// Endings and what they say; the longest that fits counts.
const UNITS: &[(&str, &str)] = &[
    ("_m", "m"),
    ("_m2", "m2"),
    ("_m3", "m3"),
    ("_per_m", "1/m"),
    ("_hz", "Hz"),
    ("_s", "s"),
    ("_ohm", "ohm"),
    ("_ohm_m", "ohm m"),
    ("_ohm_per_m", "ohm/m"),
    ("_ohm_per_h", "ohm/H"),
    ("_h", "H"),
    ("_h_m", "H m"),
    ("_h_per_m", "H/m"),
    ("_f", "F"),
    ("_f_per_m", "F/m"),
    ("_s_per_m", "S/m"),
    ("_siemens", "S"),
    ("_a", "A"),
    ("_rms_a", "A"),
    ("_v", "V"),
    ("_w", "W"),
    ("_k", "K"),
    ("_db", "dB"),
    ("_deg", "deg"),
    ("_kg_per_m2", "kg/m2"),
    ("_kg_per_m3", "kg/m3"),
    ("_pa", "Pa"),
    ("_m_per_s", "m/s"),
    ("_m3_per_s", "m3/s"),
    ("_w_per_m2", "W/m2"),
    ("_w_per_m_k", "W/(m K)"),
    ("_w_per_m2_k", "W/(m2 K)"),
];

/// The unit in a parameter's name; empty for a pure number.
pub fn of_name(name: &str) -> &'static str {
    let fitting = UNITS.iter().filter(|(ending, _)| name.ends_with(ending));
    fitting.max_by_key(|(ending, _)| ending.len()).map_or("", |(_, unit)| unit)
}
