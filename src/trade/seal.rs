//! Rubber of seals: how hot it may stay, what it may touch, whether a seal fits its shaft and bore.
//!
//! Sources: continuous limits for screening and the compatibility table: common practice (from memory); ranges by material:
//! Neale, Tribology Handbook, p. 23.3. The two differ where the trade's grades do: the handbook gives acrylate 130 °C,
//! the trade 150 °C. Tolerances: shaft h11, bore H8 (ISO 6194-1). The seal maker's own data go before all of them.

use super::guard::{finite, folded, not_negative, positive};

/// A rubber.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Rubber {
    /// Nitrile.
    Nbr,
    /// Hydrogenated nitrile.
    Hnbr,
    /// Acrylate.
    Acm,
    /// Ethylene-propylene.
    Epdm,
    /// Silicone.
    Silicone,
    /// Fluoro rubber.
    Fkm,
}

/// What a seal touches.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Medium {
    /// Mineral oil.
    MineralOil,
    /// Grease on mineral oil.
    MineralGrease,
    /// Silicone grease.
    SiliconeGrease,
    /// Water, fresh or salt.
    Water,
    /// Glycol coolant.
    Coolant,
    /// Petrol.
    Fuel,
    /// Glycol brake fluid.
    BrakeFluid,
    /// Air, with the ozone in it.
    Air,
    /// Exhaust gas.
    Exhaust,
    /// Solvents for degreasing.
    Solvent,
}

/// How a rubber stands a medium.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Verdict {
    /// Stands it.
    Good,
    /// For a time, or cold, or by grade: ask its maker.
    Limited,
    /// Swells, hardens or falls apart.
    Unfit,
}

/// A range of temperature, °C.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TemperatureRange {
    /// Lowest, °C.
    pub low_c: f64,
    /// Highest, °C.
    pub high_c: f64,
}

impl Rubber {
    /// All of them.
    pub const ALL: [Self; 6] = [Self::Nbr, Self::Hnbr, Self::Acm, Self::Epdm, Self::Silicone, Self::Fkm];

    /// The rubber of a name: its letters (ISO 1629) or the trade's word.
    #[must_use]
    pub fn find(name: &str) -> Option<Self> {
        Some(match folded(name).as_str() {
            "nbr" | "nitrile" => Self::Nbr,
            "hnbr" | "hydrogenatednitrile" => Self::Hnbr,
            "acm" | "acrylate" | "polyacrylate" => Self::Acm,
            "epdm" | "ethylenepropylene" => Self::Epdm,
            "vmq" | "mvq" | "silicone" => Self::Silicone,
            "fkm" | "fpm" | "fluororubber" => Self::Fkm,
            _ => return None,
        })
    }

    /// As we write it.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Nbr => "NBR",
            Self::Hnbr => "HNBR",
            Self::Acm => "ACM",
            Self::Epdm => "EPDM",
            Self::Silicone => "silicone",
            Self::Fkm => "FKM",
        }
    }

    /// Temperature it stands for good, °C (common practice).
    #[must_use]
    pub fn continuous_limit_c(self) -> f64 {
        match self {
            Self::Nbr => 100.0,
            Self::Hnbr => 140.0,
            Self::Acm => 150.0,
            Self::Epdm => 130.0,
            Self::Silicone => 180.0,
            Self::Fkm => 200.0,
        }
    }

    /// The range a handbook gives: Neale, Tribology Handbook, p. 23.3.
    #[must_use]
    pub fn handbook_range(self) -> Option<TemperatureRange> {
        let (low_c, high_c) = match self {
            Self::Nbr => (-40.0, 100.0),
            Self::Acm => (-20.0, 130.0),
            Self::Fkm => (-30.0, 200.0),
            Self::Silicone => (-70.0, 200.0),
            Self::Hnbr | Self::Epdm => return None,
        };
        Some(TemperatureRange { low_c, high_c })
    }

    /// How it stands a medium (common practice).
    #[must_use]
    pub fn against(self, medium: Medium) -> Verdict {
        use Verdict::{Good, Limited, Unfit};
        // In the order of `Medium`: oil, grease, silicone grease, water, coolant, fuel, brake fluid, air, exhaust, solvent.
        let row = match self {
            Self::Nbr => [Good, Good, Good, Good, Limited, Limited, Unfit, Limited, Unfit, Limited],
            Self::Hnbr => [Good, Good, Good, Good, Good, Limited, Unfit, Good, Unfit, Limited],
            Self::Acm => [Good, Good, Good, Unfit, Unfit, Unfit, Unfit, Good, Limited, Unfit],
            Self::Epdm => [Unfit, Unfit, Good, Good, Good, Unfit, Good, Good, Unfit, Unfit],
            Self::Silicone => [Limited, Limited, Unfit, Good, Good, Unfit, Limited, Good, Limited, Unfit],
            Self::Fkm => [Good, Good, Good, Limited, Limited, Good, Unfit, Good, Limited, Limited],
        };
        let at = Medium::ALL.iter().position(|known| *known == medium);
        at.and_then(|at| row.get(at)).copied().unwrap_or(Limited)
    }
}

impl Medium {
    /// All of them.
    pub const ALL: [Self; 10] = [
        Self::MineralOil, Self::MineralGrease, Self::SiliconeGrease, Self::Water, Self::Coolant, Self::Fuel, Self::BrakeFluid, Self::Air,
        Self::Exhaust, Self::Solvent,
    ];

    /// The medium of a material by its kind and base (`oil` and `grease` without a base are taken as mineral), or of the
    /// words `water`, `air`, `fuel`, `exhaust`; `None` for what the table does not know.
    #[must_use]
    pub fn find(kind: &str, base: Option<&str>) -> Option<Self> {
        let base = base.map(folded);
        Some(match (folded(kind).as_str(), base.as_deref()) {
            ("oil", None | Some("mineral")) => Self::MineralOil,
            ("grease", None | Some("mineral" | "lithium")) => Self::MineralGrease,
            ("grease", Some("silicone")) => Self::SiliconeGrease,
            ("coolant", _) => Self::Coolant,
            ("fuel" | "petrol", _) => Self::Fuel,
            ("brakefluid", None | Some("glycol")) => Self::BrakeFluid,
            ("water", _) => Self::Water,
            ("air", _) => Self::Air,
            ("exhaust", _) => Self::Exhaust,
            ("solvent", _) => Self::Solvent,
            _ => return None,
        })
    }
}

/// Temperature a rubber stands for good, °C (common practice), by its name; `None` for a name that is not known.
#[must_use]
pub fn continuous_limit(rubber: &str) -> Option<f64> {
    Rubber::find(rubber).map(Rubber::continuous_limit_c)
}

/// By how much a seal's bore misses its shaft, mm; `None` where it fits (within 0.3 mm, common practice) or a value is none.
#[must_use]
pub fn shaft_mismatch_mm(seal_bore_mm: f64, shaft_mm: f64) -> Option<f64> {
    let off = finite(positive(seal_bore_mm)? - positive(shaft_mm)?)?;
    (off.abs() > 0.3 + 1e-9).then_some(off)
}

/// By how much a seal's outside misses its bore, mm; `None` where the nominal sizes are one, or a value is none.
#[must_use]
pub fn bore_mismatch_mm(seal_outside_mm: f64, bore_mm: f64) -> Option<f64> {
    let off = finite(positive(seal_outside_mm)? - positive(bore_mm)?)?;
    (off.abs() > 0.05 + 1e-9).then_some(off)
}

/// Whether a seal pressed to a depth covers a vent or drain at another; depths from the face of the bore, mm.
#[must_use]
pub fn covers_vent(depth_mm: f64, width_mm: f64, vent_mm: f64) -> bool {
    let covered = not_negative(depth_mm).zip(positive(width_mm)).zip(not_negative(vent_mm));
    covered.is_some_and(|((depth, width), vent)| depth <= vent && vent <= depth + width)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn limits_by_name() {
        for (name, limit) in [("NBR", 100.0), ("nitrile", 100.0), ("HNBR", 140.0), ("acm", 150.0), ("silicone", 180.0), ("FKM", 200.0)] {
            assert_eq!(continuous_limit(name), Some(limit), "{name}");
        }
        assert_eq!(continuous_limit("rubber"), None);
        for rubber in Rubber::ALL {
            assert_eq!(Rubber::find(rubber.word()), Some(rubber));
        }
    }

    // The four the trade warns of: EPDM and mineral oil, NBR and brake fluid, silicone and fuel, silicone and its own grease.
    #[test]
    fn known_bad_pairs_are_unfit() {
        assert_eq!(Rubber::Epdm.against(Medium::MineralGrease), Verdict::Unfit);
        assert_eq!(Rubber::Epdm.against(Medium::MineralOil), Verdict::Unfit);
        assert_eq!(Rubber::Nbr.against(Medium::BrakeFluid), Verdict::Unfit);
        assert_eq!(Rubber::Silicone.against(Medium::Fuel), Verdict::Unfit);
        assert_eq!(Rubber::Silicone.against(Medium::SiliconeGrease), Verdict::Unfit);
        assert_eq!(Rubber::Epdm.against(Medium::BrakeFluid), Verdict::Good);
        assert_eq!(Rubber::Nbr.against(Medium::MineralOil), Verdict::Good);
        assert_eq!(Rubber::Nbr.against(Medium::Water), Verdict::Good);
    }

    #[test]
    fn media_by_kind_and_base() {
        assert_eq!(Medium::find("oil", Some("mineral")), Some(Medium::MineralOil));
        assert_eq!(Medium::find("grease", Some("silicone")), Some(Medium::SiliconeGrease));
        assert_eq!(Medium::find("water", None), Some(Medium::Water));
        assert_eq!(Medium::find("oil", Some("ester")), None);
        assert_eq!(Medium::find("", None), None);
    }

    #[test]
    fn sizes_and_vents() {
        assert_eq!(shaft_mismatch_mm(30.0, 32.0), Some(-2.0));
        assert_eq!(shaft_mismatch_mm(30.0, 30.2), None);
        assert_eq!(bore_mismatch_mm(42.0, 42.0), None);
        assert_eq!(bore_mismatch_mm(42.0, 40.0), Some(2.0));
        assert!(covers_vent(6.0, 8.0, 12.0) && !covers_vent(3.0, 8.0, 12.0) && !covers_vent(f64::NAN, 8.0, 12.0));
    }
}
