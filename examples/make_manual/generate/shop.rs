//! The shop that all machines share: of its tools, materials, sources and people, those that the machines name.

use std::collections::{BTreeMap, BTreeSet};

const TOOLS: [&str; 26] = [
    "dial-wrench:     {name: Dial torque wrench 1–6 N·m, kind: torque-wrench, range: 1–6 N·m, scale: N·m, step: 0.1 N·m, drive: 1/4 in, length: 220 mm}",
    "click-wrench:    {name: Click torque wrench 5–25 N·m, kind: torque-wrench, range: 5–25 N·m, scale: N·m, step: 0.5 N·m, drive: 1/4 in, length: 270 mm}",
    "long-wrench:     {name: Torque wrench 20–110 N·m, kind: torque-wrench, range: 20–110 N·m, scale: N·m, step: 1 N·m, drive: 1/2 in, length: 460 mm}",
    "heavy-wrench:    {name: Torque wrench 70–350 N·m, kind: torque-wrench, range: 70–350 N·m, scale: N·m, step: 5 N·m, drive: 3/4 in, length: 900 mm}",
    "shaft-holder:    {name: Splined holder with a bar, kind: holding-tool}",
    "depth-gauge:     {name: Depth gauge, kind: gauge, resolution: 0.01 mm}",
    "dial-indicator:  {name: Dial indicator on a clamped arm, kind: gauge, resolution: 0.01 mm}",
    "bench-micrometer: {name: Micrometer 0–50 mm, kind: gauge, resolution: 0.01 mm}",
    "feeler-gauge:    {name: Feeler gauge, kind: gauge, resolution: 0.01 mm}",
    "steel-rule:      {name: Steel rule, kind: gauge, resolution: 0.5 mm}",
    "spring-scale:    {name: Spring scale and cord, kind: gauge, resolution: 1 N}",
    "pressure-tester: {name: Hand pump with pressure gauge, kind: gauge, resolution: 0.005 bar}",
    "contact-probe:   {name: Contact probe, kind: thermometer, resolution: 1 °C}",
    "heat-plate:      {name: Heat plate, kind: heater}",
    "ring-driver:     {name: Driver for the outer ring, kind: press-tool}",
    "seal-driver:     {name: Set of seal drivers, kind: press-tool}",
    "spline-sleeve:   {name: Set of thin sleeves for splines, kind: sleeve}",
    "circlip-pliers:  {name: Internal circlip pliers, kind: other}",
    "staking-punch:   {name: Round-nosed staking punch, kind: other}",
    "bore-cap:        {name: Push-in bore cap, kind: other}",
    "soak-tray:       {name: Lidded tray marked for oil alone, kind: container}",
    "heat-gloves:     {name: Heat gloves and eye shield, kind: protection, against: [heat]}",
    "solvent-gloves:  {name: Solvent-proof gloves and eye shield, kind: protection, against: [solvent]}",
    "eye-shield:      {name: Eye shield, kind: protection, against: [spring, chips, pressure]}",
    "isolator-lock:   {name: Padlock on the isolator, kind: protection, against: [electric, rotation]}",
    "test-barrier:    {name: Barrier round the machine, kind: protection, against: [load, rotation]}",
];

const MATERIALS: [&str; 6] = [
    "case-degreaser:  {name: Degreaser, kind: solvent, pack: 500 mL, source: store-cards}",
    "shaft-grease:    {name: Waterproof grease, kind: grease, base: mineral, source: store-cards}",
    "thread-paste:    {name: Anti-seize paste, kind: anti-seize, base: mineral, source: store-cards}",
    "joint-sealant:   {name: Joint sealant, kind: sealant, base: anaerobic, pack: 50 mL, working: 15 min, cure: 24 h, service: -50 to 150 °C, source: store-cards}",
    "medium-locker:   {name: Medium-strength thread locker, kind: thread-locker, strength: medium, threads: M6–M20,\n                    working: 10 min, fixture: 20 min, cure: 24 h, service: -55 to 150 °C, source: bench-practice}",
    "high-locker:     {name: High-strength thread locker, kind: thread-locker, strength: high, threads: M6–M36,\n                    working: 10 min, fixture: 20 min, cure: 24 h, service: -55 to 150 °C, release: 250 °C, source: bench-practice}",
];

const SOURCES: [&str; 4] = [
    "bench-sheet-3:   {title: Workshop measurement sheet 3, kind: measured, page: 2, date: 2026-02-11, by: shop-editor, read_by: second-reader}",
    "nut-bulletin:    {title: Bulletin on shaft nuts (invented), kind: maker, page: 1, date: 2026-03-20}",
    "store-cards:     {title: Data cards of the materials store (invented), kind: vendor, date: 2026-01-15}",
    "bench-practice:  {title: Common practice at the bench, kind: practice}",
];

const PEOPLE: [&str; 3] = [
    "shop-editor:     {name: Workshop editor}",
    "second-reader:   {name: Second reader}",
    "line-warden:     {name: Line warden}",
];

const TERMS: [&str; 3] = [
    "backlash:        {name: Backlash, means: the free rocking between two gear teeth, not: [gear slop]}",
    "end-float:       {name: End float, means: the free way of a shaft along its axis, not: [end slop]}",
    "spring-side:     {name: Spring side, means: the side of a lip seal where its ring spring shows, not: [open side]}",
];

/// `shop.yaml` for the files of the machines. Every id here has a hyphen, so it can't be met as a word of the text.
pub(super) fn shop(files: &BTreeMap<String, String>) -> String {
    let mut named: BTreeSet<&str> = files.values().flat_map(|text| words(text)).collect();
    let mut text = "revision: 1\ndate: 2026-03-20\n".to_owned();
    // What the materials name counts for the sources, and what the sources name for the people.
    for (list, entries) in [("tools", &TOOLS[..]), ("materials", &MATERIALS), ("sources", &SOURCES), ("people", &PEOPLE)] {
        let used: Vec<&str> = entries.iter().copied().filter(|entry| entry.split(':').next().is_some_and(|id| named.contains(id))).collect();
        if !used.is_empty() {
            text += &section(list, &used);
        }
        named.extend(used.into_iter().flat_map(words));
    }
    text + &section("terms", &TERMS)
}

fn section(list: &str, entries: &[&str]) -> String {
    format!("{list}:\n{}", entries.iter().map(|entry| format!("  {entry}\n")).collect::<String>())
}

fn words(text: &str) -> impl Iterator<Item = &str> {
    text.split(|sign: char| !(sign.is_ascii_lowercase() || sign.is_ascii_digit() || sign == '-')).filter(|word| word.contains('-'))
}
