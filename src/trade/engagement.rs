//! Engagement of a bolt in its hole: how much there is, how much it needs, whether the bolt bottoms or fouls.
//!
//! Sources of the need: for screening 1.0 d in steel, 1.2 d in cast iron, 1.5 d in aluminium, 2.0 d in magnesium (common
//! practice); handbooks ask for more in soft metal: 1.0 d in steel, 1.5 d in cast iron, brass or bronze, 2.0 d in
//! aluminium (engineering notes; US Army torque notes ask for 2 diameters in aluminium as well). Both are kept.

use super::guard::{finite, folded, not_negative, positive};

/// What the hole is tapped in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum InternalMaterial {
    /// Steel.
    Steel,
    /// Grey or ductile iron.
    CastIron,
    /// Cast or wrought aluminium alloy.
    Aluminium,
    /// Cast magnesium alloy.
    Magnesium,
    /// Brass or bronze.
    Brass,
}

/// A bolt and what it goes through and into; lengths in mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BoltedHole {
    /// Length under the head.
    pub length_mm: f64,
    /// Thickness of what is clamped.
    pub clamped_mm: f64,
    /// Thickness of all washers (0 for none).
    pub washer_mm: f64,
    /// Threaded depth of the hole, where it is known and blind.
    pub hole_mm: Option<f64>,
}

/// How much engagement a material asks for, in nominal diameters.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct NeededEngagement {
    /// Less than this is doubtful (common practice).
    pub screening: f64,
    /// What handbooks ask for, where we know of one.
    pub handbook: Option<f64>,
}

/// How an engagement stands against its need.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum EngagementStanding {
    /// Enough.
    Enough,
    /// Below the need by less than 30 %.
    Short {
        /// What is needed, mm.
        needed_mm: f64,
    },
    /// Below 70 % of the need.
    FarTooShort {
        /// What is needed, mm.
        needed_mm: f64,
    },
}

impl InternalMaterial {
    /// The materials as they are written.
    pub const WORDS: [(&'static str, Self); 5] = [
        ("steel", Self::Steel),
        ("cast-iron", Self::CastIron),
        ("aluminium", Self::Aluminium),
        ("magnesium", Self::Magnesium),
        ("brass", Self::Brass),
    ];

    /// The material of a word.
    #[must_use]
    pub fn find(word: &str) -> Option<Self> {
        let wanted = folded(word);
        Self::WORDS.iter().find(|(text, _)| folded(text) == wanted).map(|(_, material)| *material)
    }

    /// As it is written.
    #[must_use]
    pub fn word(self) -> &'static str {
        Self::WORDS.iter().find(|(_, material)| *material == self).map_or("", |(word, _)| word)
    }

    /// How much engagement it asks for.
    #[must_use]
    pub fn needed_engagement(self) -> NeededEngagement {
        let (screening, handbook) = match self {
            Self::Steel => (1.0, Some(1.0)),
            Self::CastIron => (1.2, Some(1.5)),
            Self::Aluminium => (1.5, Some(2.0)),
            Self::Magnesium => (2.0, None),
            Self::Brass => (1.2, Some(1.5)),
        };
        NeededEngagement { screening, handbook }
    }

    /// How an engagement stands against the screening's need.
    #[must_use]
    pub fn standing(self, engagement_mm: f64, diameter_mm: f64) -> Option<EngagementStanding> {
        let engagement_mm = finite(engagement_mm)?;
        let needed_mm = finite(self.needed_engagement().screening * positive(diameter_mm)?)?;
        Some(if engagement_mm + HAIR_MM >= needed_mm {
            EngagementStanding::Enough
        } else if engagement_mm + HAIR_MM >= 0.7 * needed_mm {
            EngagementStanding::Short { needed_mm }
        } else {
            EngagementStanding::FarTooShort { needed_mm }
        })
    }
}

impl BoltedHole {
    /// How far the bolt reaches past what it clamps, mm; below zero where it does not reach the hole.
    #[must_use]
    pub fn reach_mm(&self) -> Option<f64> {
        finite(positive(self.length_mm)? - not_negative(self.clamped_mm)? - not_negative(self.washer_mm)?)
    }

    /// Threads in engagement, mm: the reach, no more than the hole's threads, no less than none.
    #[must_use]
    pub fn engagement_mm(&self) -> Option<f64> {
        let reach = self.reach_mm()?.max(0.0);
        match self.hole_mm {
            Some(hole) => Some(reach.min(positive(hole)?)),
            None => Some(reach),
        }
    }

    /// By how much the bolt reaches too deep, mm, where one pitch is to stay free at the bottom; `None` where it does not,
    /// or the hole's depth is not known.
    #[must_use]
    pub fn bottoms_by_mm(&self, pitch_mm: f64) -> Option<f64> {
        let free = positive(self.hole_mm?)? - positive(pitch_mm)?;
        let excess = finite(self.reach_mm()? - free)?;
        (excess > HAIR_MM).then_some(excess)
    }

    /// Where the bolt goes through a nut instead: how far it stands out behind it, mm (below zero: it does not fill the
    /// nut). At least one pitch is asked for (FAA AC 43.13-1B, 7-37, for self-locking nuts).
    #[must_use]
    pub fn protrusion_mm(&self, nut_height_mm: f64) -> Option<f64> {
        finite(self.reach_mm()? - positive(nut_height_mm)?)
    }
}

/// By how much a head or end reaches into a moving part, mm; `None` where there is room.
#[must_use]
pub fn fouls_by_mm(height_mm: f64, room_mm: f64) -> Option<f64> {
    let excess = finite(positive(height_mm)? - not_negative(room_mm)?)?;
    (excess > HAIR_MM).then_some(excess)
}

/// Lengths are written to a tenth or a hundredth: a nanometre is no difference.
const HAIR_MM: f64 = 1e-6;

#[cfg(test)]
mod tests {
    use super::*;

    fn hole(length_mm: f64, clamped_mm: f64, washer_mm: f64, hole_mm: Option<f64>) -> BoltedHole {
        BoltedHole { length_mm, clamped_mm, washer_mm, hole_mm }
    }

    #[test]
    fn a_short_bolt_and_a_long_one() {
        let short = hole(25.0, 12.0, 1.6, Some(14.0));
        assert!((short.engagement_mm().unwrap() - 11.4).abs() < 1e-9);
        let standing = InternalMaterial::Aluminium.standing(11.4, 8.0);
        assert_eq!(standing, Some(EngagementStanding::Short { needed_mm: 12.0 }));
        assert_eq!(short.bottoms_by_mm(1.25), None);
        let long = hole(30.0, 12.0, 1.6, Some(14.0));
        assert!((long.reach_mm().unwrap() - 16.4).abs() < 1e-9);
        assert!((long.bottoms_by_mm(1.25).unwrap() - 3.65).abs() < 1e-9);
        assert_eq!(long.engagement_mm(), Some(14.0));
    }

    #[test]
    fn standings_change_at_the_need_and_at_seven_tenths() {
        for (engagement, expected) in [(12.0, "Enough"), (11.99, "Short"), (8.4, "Short"), (8.39, "FarTooShort"), (-3.0, "FarTooShort")] {
            let standing = format!("{:?}", InternalMaterial::Aluminium.standing(engagement, 8.0).unwrap());
            assert!(standing.starts_with(expected), "{engagement}: {standing}");
        }
        assert_eq!(InternalMaterial::Steel.standing(f64::NAN, 8.0), None);
        assert_eq!(InternalMaterial::Steel.standing(8.0, 0.0), None);
    }

    #[test]
    fn heads_foul_by_what_is_missing() {
        assert!((fouls_by_mm(5.5, 4.0).unwrap() - 1.5).abs() < 1e-9);
        assert_eq!(fouls_by_mm(3.0, 4.0), None);
        assert_eq!(fouls_by_mm(4.0, 4.0), None);
        assert_eq!(fouls_by_mm(f64::NAN, 4.0), None);
    }

    #[test]
    fn a_bolt_too_short_for_its_joint_engages_nothing() {
        let bolt = hole(10.0, 12.0, 0.0, None);
        assert_eq!((bolt.reach_mm(), bolt.engagement_mm(), bolt.bottoms_by_mm(1.0)), (Some(-2.0), Some(0.0), None));
        assert!((hole(35.0, 20.0, 1.6, None).protrusion_mm(6.8).unwrap() - 6.6).abs() < 1e-9);
        assert_eq!(hole(f64::INFINITY, 12.0, 0.0, None).reach_mm(), None);
        assert_eq!(hole(f64::MAX, 0.0, 0.0, Some(250.0)).bottoms_by_mm(f64::MAX), None);
        assert_eq!(hole(20.0, 12.0, 0.0, Some(-1.0)).engagement_mm(), None);
    }

    #[test]
    fn materials_read_back() {
        for (word, material) in InternalMaterial::WORDS {
            assert_eq!((InternalMaterial::find(word), material.word()), (Some(material), word));
        }
        assert_eq!(InternalMaterial::find("cast iron"), Some(InternalMaterial::CastIron));
    }
}
