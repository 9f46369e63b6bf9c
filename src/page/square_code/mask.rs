//! Which of the eight masks a code gets: the one with the least penalty (ISO/IEC 18004, 7.8.3), reckoned a row at a time.
//!
//! What turns a code with mask 0 into one with another mask is the same for all codes of one version and level: it is taken
//! once from the library's own codes. The library's choice, module by module, takes longer than all the rest of a code.

use qrcodegen::{QrCode, QrCodeEcc, Version};
use std::sync::{Arc, Mutex};

/// Points for five modules of one colour in line, and one for each more.
const LINE: u32 = 3;
/// For a block of four of one colour.
const BLOCK: u32 = 3;
/// For what looks like a finder: dark and light as 1 : 1 : 3 : 1 : 1, and four of them light on one side.
const FINDER: u32 = 40;
/// For each 5 % by which dark modules are not half of all.
const BALANCE: u32 = 10;
/// The widest module of a finder is a seventh of a row.
const WIDEST: u32 = 8;
const MASKS: u8 = 8;

/// The modules of a code of at most 61 a side, black ones as ones: by rows from the left, and by columns from the top.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Modules {
    rows: Vec<u64>,
    columns: Vec<u64>,
}

/// What turns mask 0 into each mask.
type Turns = Arc<Vec<Modules>>;

/// The turns of each version and level that was asked for.
static TURNS: Mutex<Vec<(Version, QrCodeEcc, Turns)>> = Mutex::new(Vec::new());

/// A code with the mask that fits it best, from the same with mask 0. `encoded` makes it with any mask.
pub(super) fn best(plain: &QrCode, encoded: &dyn Fn(u8) -> Option<QrCode>) -> Modules {
    let modules = Modules::of(plain);
    let (version, level) = (plain.version(), plain.error_correction_level());
    let known = TURNS.lock().ok().and_then(|known| known.iter().find(|known| (known.0, known.1) == (version, level)).map(|known| Arc::clone(&known.2)));
    let turns = known.or_else(|| {
        let turns: Option<Vec<Modules>> = (0..MASKS).map(|mask| Some(Modules::of(&encoded(mask)?).turned(&modules))).collect();
        let turns = Arc::new(turns?);
        if let Ok(mut known) = TURNS.lock() {
            known.push((version, level, Arc::clone(&turns)));
        }
        Some(turns)
    });
    let masked = turns.iter().flat_map(|turns| turns.iter()).map(|turn| modules.turned(turn));
    masked.min_by_key(Modules::penalty).unwrap_or(modules)
}

impl Modules {
    /// The modules of a finished code.
    pub(super) fn of(code: &QrCode) -> Self {
        let mut columns = vec![0; usize::try_from(code.size()).unwrap_or(0)];
        let mut row = |y: i32| {
            (0..).zip(&mut columns).fold(0, |row, (x, column)| {
                let module = u64::from(code.get_module(x, y));
                *column |= module << y;
                row | (module << x)
            })
        };
        Self { rows: (0..code.size()).map(&mut row).collect(), columns }
    }

    /// Its rows.
    pub(super) fn rows(&self) -> &[u64] {
        &self.rows
    }

    /// Each module that is black in the other turned.
    fn turned(&self, other: &Self) -> Self {
        let turned = |own: &[u64], other: &[u64]| own.iter().zip(other).map(|(own, other)| own ^ other).collect();
        Self { rows: turned(&self.rows, &other.rows), columns: turned(&self.columns, &other.columns) }
    }

    fn penalty(&self) -> u32 {
        let size = u32::try_from(self.rows.len()).unwrap_or(u64::BITS);
        let lines: u32 = self.rows.iter().chain(&self.columns).map(|line| lines(*line, size) + FINDER * finders(*line)).sum();
        let blocks: u32 = self.rows.windows(2).map(|pair| if let [upper, lower] = pair { blocks(*upper, *lower, size) } else { 0 }).sum();
        let (black, all) = (self.rows.iter().map(|row| row.count_ones()).sum::<u32>(), size * size);
        // How many whole steps of 5 % the share lies beyond 45 % to 55 %.
        let off = (black * 20).abs_diff(all * 10).div_ceil(all.max(1)).saturating_sub(1);
        lines + BLOCK * blocks + BALANCE * off
    }
}

/// As many ones as a line has modules.
fn all(size: u32) -> u64 {
    u64::MAX.checked_shr(u64::BITS.saturating_sub(size)).unwrap_or(0)
}

/// The points of a line for five and more of one colour in it.
fn lines(line: u64, size: u32) -> u32 {
    let alike = !(line ^ (line >> 1)) & all(size.saturating_sub(1));
    // Where five begin, and so four that are like the next; a run has one more of these for each module beyond the fifth.
    let five = run(alike, 4);
    let runs = five & !(five << 1);
    five.count_ones() + (LINE - 1) * runs.count_ones()
}

/// Where so many ones in line begin.
fn run(line: u64, length: u32) -> u64 {
    (1..length).fold(line, |run, by| run & (line >> by))
}

/// The blocks of four of one colour in two lines.
fn blocks(upper: u64, lower: u64, size: u32) -> u32 {
    let alike = !(upper ^ lower);
    let beside = !(upper ^ (upper >> 1));
    (alike & (alike >> 1) & beside & all(size.saturating_sub(1))).count_ones()
}

/// How often something in a line looks like a finder, from each side that has the light for it: beyond its ends all is light.
fn finders(line: u64) -> u32 {
    let mut found = 0;
    for wide in 1..=WIDEST {
        let middle = run(line, 3 * wide);
        if middle == 0 {
            break;
        }
        let (dark, light) = (run(line, wide), run(!line, wide));
        let finder = dark & (light >> wide) & (middle >> (2 * wide)) & (light >> (5 * wide)) & (dark >> (6 * wide));
        // Most lines have none.
        if finder != 0 {
            // What has a dark module among so many beside it.
            let before = |far: u32| (1..=far).fold(0, |dark, by| dark | (line << by));
            let behind = |far: u32| (0..far).fold(0, |dark, by| dark | (line >> (7 * wide) >> by));
            found += (finder & !before(wide) & !behind(4 * wide)).count_ones() + (finder & !before(4 * wide) & !behind(wide)).count_ones();
        }
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;
    use qrcodegen::{Mask, QrSegment};

    /// The library's own choice and modules.
    #[test]
    fn the_choice_is_that_of_the_library() {
        for (length, level) in (1..160).zip([QrCodeEcc::Low, QrCodeEcc::Medium].into_iter().cycle()) {
            for text in ["x".repeat(length), (0..length).map(|at| format!("{:X}", at * at * 7919)).collect::<String>()] {
                let segments = QrSegment::make_segments(&text);
                let encoded = |mask: Option<u8>| {
                    QrCode::encode_segments_advanced(&segments, level, Version::new(6), Version::new(11), mask.map(Mask::new), true).ok()
                };
                let Some(wanted) = encoded(None) else { continue };
                assert_eq!(best(&encoded(Some(0)).unwrap(), &|mask| encoded(Some(mask))), Modules::of(&wanted), "{text}");
            }
        }
    }

    #[test]
    fn finders_are_told_by_their_proportions_and_the_light_beside_them() {
        // The border of a code is light: both sides count.
        assert_eq!(finders(0b101_1101), 2);
        assert_eq!(finders(0b11_0011_1111_0011), 2);
        assert_eq!(finders(0b101_1101 << 5 | 1), 2);
        // Light of three on one side, of five on the other.
        assert_eq!(finders((1 << 16) | (0b101_1101 << 4) | 1), 1);
        assert_eq!(finders(0b1011_1101), 0);
    }

    #[test]
    fn five_in_line_cost_three_and_each_more_one() {
        assert_eq!([lines(0b1_1111, 6), lines(0b11_1111, 7), lines(0b11_1110_0000, 10), lines(0b1_0111, 5)], [3, 4, 6, 0]);
    }
}
