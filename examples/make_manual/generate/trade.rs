//! Values that agree with the trade: torques from the screening model F = T ÷ (K·d) and a share of proof load,
//! lengths and holes from engagement, orders that never go to a neighbour.
//!
//! Stress areas after ISO 898-1, wrench sizes after ISO 272, nut factors K and shares of proof load common
//! practice; all from memory.

use super::random::Random;

/// A thread with what hangs on it: diameter and pitch in mm, stress area in mm², hexagon in mm.
#[derive(Clone, Copy, Default)]
pub(super) struct Thread {
    pub(super) name: &'static str,
    pub(super) diameter: f64,
    pitch: f64,
    area: f64,
    hex: u32,
}

const fn thread(name: &'static str, diameter: f64, pitch: f64, area: f64, hex: u32) -> Thread {
    Thread { name, diameter, pitch, area, hex }
}

pub(super) const M6: Thread = thread("M6x1.0", 6.0, 1.0, 20.1, 10);
pub(super) const M8: Thread = thread("M8x1.25", 8.0, 1.25, 36.6, 13);
pub(super) const M10: Thread = thread("M10x1.5", 10.0, 1.5, 58.0, 16);
pub(super) const M12: Thread = thread("M12x1.75", 12.0, 1.75, 84.3, 18);
const PLUGS: [Thread; 4] = [
    thread("M14x1.5", 14.0, 1.5, 124.6, 10),
    thread("M16x1.5", 16.0, 1.5, 167.2, 12),
    thread("M18x1.5", 18.0, 1.5, 216.2, 12),
    thread("M22x1.5", 22.0, 1.5, 333.1, 14),
];
const NUTS: [Thread; 5] = [
    thread("M12x1.25", 12.0, 1.25, 92.1, 18),
    thread("M14x1.5", 14.0, 1.5, 124.6, 21),
    thread("M16x1.5", 16.0, 1.5, 167.2, 24),
    thread("M20x1.5", 20.0, 1.5, 271.5, 30),
    thread("M24x2", 24.0, 2.0, 384.4, 36),
];

/// Lengths of bolts that a store has, mm.
const LENGTHS: [u32; 17] = [16, 20, 25, 30, 35, 40, 45, 50, 55, 60, 65, 70, 80, 90, 100, 110, 120];

/// How a thread is treated, and of what class its bolt is.
#[derive(Clone, Copy, Default)]
pub(super) struct Grade {
    class: &'static str,
    pub(super) threads: &'static str,
    proof: f64,
    factor: f64,
}

pub(super) const DRY: Grade = Grade { class: "8.8", threads: "dry", proof: 580.0, factor: 0.20 };
pub(super) const HARD: Grade = Grade { class: "10.9", threads: "dry", proof: 830.0, factor: 0.20 };
pub(super) const PASTE: Grade = Grade { class: "A4-70", threads: "anti-seize", proof: 450.0, factor: 0.15 };
pub(super) const LOCKER: Grade = Grade { class: "8.8", threads: "locker", proof: 580.0, factor: 0.18 };
const NUT: Grade = Grade { class: "8", threads: "locker", proof: 580.0, factor: 0.18 };
const PLUG: Grade = Grade { class: "8.8", threads: "dry", proof: 580.0, factor: 0.20 };

/// A fastener's torque at a share of proof load, N·m, as a wrench can be set to it.
fn torque(thread: Thread, grade: Grade, percent: u32) -> f64 {
    let exact = grade.factor * thread.diameter / 1000.0 * thread.area * grade.proof * f64::from(percent) / 100.0;
    let step = match exact {
        below if below < 25.0 => 0.5,
        below if below < 110.0 => 1.0,
        _ => 5.0,
    };
    (exact / step).round() * step
}

/// The wrench of the shop that reads a torque, and the least it can be used for: the end of its scale or a fifth of
/// the full scale (common practice).
fn wrench(torque: f64) -> (&'static str, f64) {
    match torque {
        below if below < 6.0 => ("dial-wrench", 1.2),
        below if below < 22.0 => ("click-wrench", 5.0),
        below if below < 105.0 => ("long-wrench", 22.0),
        _ => ("heavy-wrench", 70.0),
    }
}

/// A number without needless noughts.
pub(super) fn number(value: f64) -> String {
    if value.fract().abs() < 0.01 { format!("{value:.0}") } else { format!("{value:.1}") }
}

/// Bolts that clamp, before their values are chosen.
pub(super) struct Bolts {
    pub(super) thread: Thread,
    pub(super) grade: Grade,
    pub(super) count: usize,
    pub(super) role: &'static str,
    pub(super) into: &'static str,
    /// Passes wished for; fewer where the first would lie below the wrench's scale.
    pub(super) stages: usize,
}

/// Bolts with their values.
pub(super) struct Chosen {
    /// The fields in the order of the format, each on a line of its own, indented for a list of fasteners.
    pub(super) fields: String,
    /// Passes.
    pub(super) stages: usize,
}

impl Bolts {
    pub(super) fn choose(&self, random: &mut Random) -> Chosen {
        let Thread { name, diameter, pitch, hex, .. } = self.thread;
        let clamped = f64::from(random.between(8, 24));
        let needed = clamped + 1.5 * diameter;
        let length = LENGTHS.iter().copied().find(|length| f64::from(*length) >= needed).unwrap_or(120);
        let hole = (f64::from(length) - clamped + 2.0 * pitch).ceil() + f64::from(random.between(0, 3));
        let torque = torque(self.thread, self.grade, random.between(61, 69));
        let passes = passes(torque, self.stages);
        let written: Vec<String> = passes.iter().map(|pass| format!("{} N·m", number(*pass))).collect();
        let mut lines = vec![
            format!("count: {}", self.count),
            format!("thread: {name}"),
            format!("length: {length} mm"),
            format!("clamped: {clamped:.0} mm"),
            format!("hole: {hole:.0} mm"),
            format!("class: {}", self.grade.class),
            format!("role: {}", self.role),
            format!("into: {}", self.into),
            format!("drive: {hex} mm hex"),
            format!("threads: {}", self.grade.threads),
            if passes.len() > 1 { format!("torque: [{}]", written.join(", ")) } else { format!("torque: {}", written.join("")) },
            format!("tool: {}", wrench(torque).0),
        ];
        if self.count > 3 {
            lines.push(pattern(self.count, random));
        }
        Chosen { fields: indented(&lines), stages: passes.len() }
    }
}

/// The passes of a torque, rising, all on the part of one wrench's scale that can be used.
fn passes(torque: f64, wished: usize) -> Vec<f64> {
    let least = wrench(torque).1;
    let round = |share: f64| if torque < 25.0 { (torque * share * 2.0).round() / 2.0 } else { (torque * share).round() };
    let shares: [&[f64]; 3] = [&[0.5, 0.75], &[0.6], &[]];
    let early = shares.iter().skip(3_usize.saturating_sub(wished.max(1)));
    let fitting = early.map(|shares| shares.iter().map(|share| round(*share)).collect::<Vec<f64>>()).find(|early| early.iter().all(|pass| *pass >= least));
    let mut passes = fitting.unwrap_or_default();
    passes.push(torque);
    passes
}

/// An order written out, or the places from which it is worked out.
fn pattern(count: usize, random: &mut Random) -> String {
    if random.once_in(3) {
        return format!("layout: {{circle: {count}}}");
    }
    let order: &[u32] = match count {
        4 => &[1, 3, 2, 4],
        5 => &[1, 3, 5, 2, 4],
        6 => &[1, 4, 2, 5, 3, 6],
        8 => &[1, 5, 3, 7, 2, 6, 4, 8],
        10 => &[1, 6, 3, 8, 5, 10, 2, 7, 4, 9],
        12 => &[1, 7, 4, 10, 2, 8, 5, 11, 3, 9, 6, 12],
        _ => return format!("layout: {{circle: {count}}}"),
    };
    format!("order: {order:?}")
}

/// A plug that seals with a washer.
pub(super) fn plug(random: &mut Random) -> String {
    let thread = random.pick(&PLUGS);
    let torque = torque(thread, PLUG, random.between(8, 12));
    indented(&[
        "count: 1".to_owned(),
        format!("thread: {}", thread.name),
        format!("class: {}", PLUG.class),
        "role: plug".to_owned(),
        "into: cast-iron".to_owned(),
        format!("drive: {} mm hex", thread.hex),
        format!("threads: {}", PLUG.threads),
        format!("torque: {} N·m", number(torque)),
        format!("tool: {}", wrench(torque).0),
        "reuse: inspect".to_owned(),
        "when: thread clean and seat flat".to_owned(),
    ])
}

/// A nut on a shaft: its fields, the torque it has on late machines, and what it had there before.
pub(super) struct ShaftNut {
    pub(super) fields: String,
    pub(super) thread: &'static str,
    pub(super) was: String,
}

pub(super) fn shaft_nut(random: &mut Random) -> ShaftNut {
    let thread = random.pick(&NUTS);
    // Large nuts hold by their thread's size, not by its stretch.
    let percent = if thread.diameter > 18.0 { random.between(20, 30) } else { random.between(46, 58) };
    let (mut early, mut late) = (torque(thread, NUT, percent), torque(thread, NUT, percent + 6));
    // One wrench for both values; the heavy one is divided in fives.
    let (tool, least) = wrench(late);
    if least > 25.0 {
        (early, late) = ((early / 5.0).round() * 5.0, (late / 5.0).round() * 5.0);
    }
    let locker = if thread.diameter > 18.0 { "high-locker" } else { "medium-locker" };
    let tolerance = match least {
        _ if early > 150.0 => 10.0,
        least if least > 25.0 => 5.0,
        _ => 4.0,
    };
    let fields = indented(&[
        "count: 1".to_owned(),
        format!("thread: {}", thread.name),
        format!("class: {}", NUT.class),
        "role: shaft-nut".to_owned(),
        "into: steel".to_owned(),
        format!("drive: {} mm hex", thread.hex),
        format!("threads: {}", NUT.threads),
        format!("locker: {locker}"),
        format!("torque: {{early: {} ± {} N·m, late: {} ± {} N·m}}", number(early), number(tolerance), number(late), number(tolerance)),
        format!("tool: {tool}"),
        "hold_with: shaft-holder".to_owned(),
        "critical: true".to_owned(),
    ]);
    let was = format!("{{late: {} ± {} N·m}}", number(early), number(tolerance));
    ShaftNut { fields, thread: thread.name, was }
}

fn indented(lines: &[String]) -> String {
    lines.iter().map(|line| format!("\n    {line}")).collect()
}

/// What goes on one shaft: its diameter, a lip seal, a ball bearing and a taper bearing that fit it (sizes of the
/// bearings after ISO 15 and ISO 355, from memory), and the bore of the ball bearing's housing, mm.
#[derive(Clone, Copy, Default)]
pub(super) struct ShaftSize {
    pub(super) shaft: u32,
    pub(super) seal: &'static str,
    pub(super) width: u32,
    pub(super) ball: &'static str,
    pub(super) bore: u32,
    pub(super) taper: &'static str,
}

pub(super) const SHAFTS: [ShaftSize; 4] = [
    ShaftSize { shaft: 30, seal: "30x42x7 mm", width: 7, ball: "30x62x16 mm", bore: 62, taper: "30x55x17 mm" },
    ShaftSize { shaft: 35, seal: "35x50x7 mm", width: 7, ball: "35x72x17 mm", bore: 72, taper: "35x62x18 mm" },
    ShaftSize { shaft: 40, seal: "40x55x8 mm", width: 8, ball: "40x80x18 mm", bore: 80, taper: "40x68x19 mm" },
    ShaftSize { shaft: 45, seal: "45x62x8 mm", width: 8, ball: "45x85x19 mm", bore: 85, taper: "45x75x20 mm" },
];
