//! Plastics: the words for them, and what they don't stand.
//!
//! Sources: common practice. Anaerobic products stay wet where no metal wakes them, and crack plastics under stress.

/// Widest gap in which an anaerobic sealant cures, mm (common practice).
pub const ANAEROBIC_GAP_MM: f64 = 0.25;

/// Names of plastics, in lower case.
const NAMES: [&str; 24] = [
    "plastic", "nylon", "polyamide", "pa", "pa6", "pa66", "pom", "acetal", "abs", "polycarbonate", "pc", "acrylic", "pmma", "polystyrene", "pvc",
    "polypropylene", "pp", "polyethylene", "pe", "hdpe", "phenolic", "ptfe", "peek", "pbt",
];

/// Whether a material, as an author writes it, is a plastic: `nylon`, `glass-filled PA66`.
#[must_use]
pub fn is_plastic(material: &str) -> bool {
    material.split(|sign: char| !sign.is_alphanumeric()).any(|word| NAMES.contains(&word.to_lowercase().as_str()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn plastics_by_their_words() {
        for plastic in ["nylon", "Polycarbonate", "glass-filled PA66", "PTFE", "acetal (POM)"] {
            assert!(is_plastic(plastic), "{plastic}");
        }
        for other in ["aluminium", "cast-iron", "NBR", "paper", "pack", ""] {
            assert!(!is_plastic(other), "{other}");
        }
    }
}
