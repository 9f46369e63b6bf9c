//! How far two metals stand apart in the wet: the anodic index, and what difference still does.
//!
//! Source: the table of anodic indices of common engineering texts, after MIL-STD-889 (from memory); a difference of up to
//! 0.15 V does in salt water, up to 0.25 V outdoors. A screening: areas, coats and the water itself decide as much.

/// Difference that still does where salt water gets at the joint, V.
pub const MOST_IN_SALT_V: f64 = 0.15;
/// Difference that still does outdoors, V.
pub const MOST_OUTDOORS_V: f64 = 0.25;

/// A metal of the table.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Metal {
    /// What a reader calls it.
    pub name: &'static str,
    /// Anodic index below gold, V.
    pub index_v: f64,
    /// Words an author may use for it, in lower case.
    words: &'static [&'static str],
}

/// Noblest first. A word that two might mean stands at the first.
const METALS: [Metal; 10] = [
    Metal { name: "copper", index_v: 0.35, words: &["copper"] },
    Metal { name: "brass or bronze", index_v: 0.40, words: &["brass", "bronze"] },
    Metal { name: "stainless steel", index_v: 0.50, words: &["stainless"] },
    Metal { name: "lead", index_v: 0.70, words: &["lead"] },
    Metal { name: "steel or iron", index_v: 0.85, words: &["steel", "iron"] },
    Metal { name: "aluminium", index_v: 0.90, words: &["aluminium", "aluminum"] },
    Metal { name: "cadmium", index_v: 0.95, words: &["cadmium"] },
    Metal { name: "galvanised steel", index_v: 1.20, words: &["galvanised", "galvanized"] },
    Metal { name: "zinc", index_v: 1.25, words: &["zinc"] },
    Metal { name: "magnesium", index_v: 1.75, words: &["magnesium"] },
];

/// The metal that a material is, as an author writes it: `bronze`, `cast aluminium`, `stainless steel`, `aluminium bronze`. None for a
/// coated or lined one, whose surface is another metal's or none, for two metals, and for what is no metal or says what it is not.
#[must_use]
pub fn metal(material: &str) -> Option<&'static Metal> {
    const UNSURE: [&str; 33] = [
        "plated", "coated", "coating", "lined", "faced", "painted", "anodised", "anodized", "filled", "bonded", "backed", "clad", "tinned", "tin", "chromed", "chrome", "lacquered",
        "enamelled", "enameled", "nickelled", "nickeled", "nickel", "dipped", "free", "not", "no", "with", "on", "and", "or", "coloured", "colored", "like",
    ];
    let words: Vec<String> = material.split(|sign: char| !sign.is_alphanumeric()).filter(|word| !word.is_empty()).map(str::to_lowercase).collect();
    if words.iter().any(|word| UNSURE.contains(&word.as_str())) {
        return None;
    }
    let of = |word: &String| METALS.iter().find(|metal| metal.words.contains(&word.as_str()));
    // `stainless steel`, `aluminium bronze`, `galvanised steel`: an alloy or kind is named by both of its words.
    if words.iter().any(|word| word == "stainless" || word == "galvanised" || word == "galvanized") || words.last().is_some_and(|word| word == "bronze" || word == "brass") {
        return words.iter().find(|word| matches!(word.as_str(), "stainless" | "galvanised" | "galvanized")).or(words.last()).and_then(of);
    }
    let mut named = words.iter().filter_map(of);
    let first = named.next()?;
    named.all(|other| other.name == first.name).then_some(first)
}

/// How far two metals stand apart, V.
#[must_use]
pub fn apart_v(one: &Metal, other: &Metal) -> f64 {
    (one.index_v - other.index_v).abs()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn apart(one: &str, other: &str) -> f64 {
        apart_v(metal(one).unwrap(), metal(other).unwrap())
    }

    // Anodic indices of engineering texts (after MIL-STD-889, from memory): copper 0.35, brass 0.40, 18 % chromium stainless steel
    // 0.50, steel 0.85, aluminium 0.90, zinc 1.25, magnesium 1.75 V.
    #[test]
    fn metals_apart_by_the_table() {
        for (one, other, volts) in [
            ("copper", "magnesium", 1.40), ("bronze", "cast magnesium", 1.35), ("stainless steel", "aluminium", 0.40), ("steel", "aluminium", 0.05),
            ("magnesium", "copper", 1.40), ("zinc", "aluminium", 0.35),
        ] {
            assert!((apart(one, other) - volts).abs() < 1e-9, "{one}, {other}");
        }
        assert!(apart("steel", "aluminium") <= MOST_IN_SALT_V, "steel in aluminium does in salt");
        assert!(apart("stainless steel", "aluminium") > MOST_OUTDOORS_V);
    }

    #[test]
    fn what_is_covered_or_no_metal_has_no_place() {
        assert_eq!(metal("Stainless steel A4").map(|metal| metal.name), Some("stainless steel"));
        assert_eq!(metal("cast-iron").map(|metal| metal.name), Some("steel or iron"));
        assert_eq!(metal("aluminium bronze").map(|metal| metal.name), Some("brass or bronze"));
        for none in [
            "tinned copper", "lacquered copper", "chromed brass", "rubber on brass", "steel with bronze bush", "copper-free aluminium", "aluminium (not copper)", "brass-coloured aluminium",
            "rubber-coated copper", "nickel-plated brass", "NBR", "paper", "leaded", "", "anodised aluminium", "copper steel",
        ] {
            assert_eq!(metal(none), None, "{none}");
        }
    }

    #[test]
    fn the_table_runs_from_the_noblest_down() {
        assert!(METALS.windows(2).all(|pair| matches!(pair, [one, other] if one.index_v < other.index_v)));
    }
}
