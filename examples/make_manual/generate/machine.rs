//! One machine: its name and variants, which work is done on it and in what order.

use super::book::{Abroad, Book, Lists, ThirdAxis, moment};
use super::page::Words;
use super::random::Random;
use super::work;
use std::collections::BTreeMap;

/// What a machine is, and the letters its name begins with.
const KINDS: [(&str, &str); 12] = [
    ("slipway winch gearbox", "SW"),
    ("launch gearbox", "LG"),
    ("dredge pump drive", "DP"),
    ("lock gate winch", "GW"),
    ("bilge pump drive", "BP"),
    ("capstan gearbox", "CG"),
    ("mill gearbox", "MG"),
    ("slewing drive of a quay crane", "QS"),
    ("conveyor drive", "CD"),
    ("saw bench gearbox", "SB"),
    ("threshing drive", "TD"),
    ("ferry steering gear", "FS"),
];

/// Which shaft a piece of work is about. No two pieces of one machine share one.
const STATIONS: [&str; 18] = [
    "input", "output", "idler", "lay", "main", "counter", "feed", "transfer", "reverse", "upper", "lower", "front", "rear", "winding", "cross",
    "tail", "quill", "fan",
];

/// Work that hangs together: one procedure or two.
#[derive(Clone, Copy, Default)]
enum Work {
    #[default]
    Cover,
    Nut,
    Carrier,
    Preload,
    Pack,
    Belt,
}

impl Work {
    fn pages(self) -> usize {
        match self {
            Self::Cover | Self::Pack | Self::Belt => 1,
            Self::Nut | Self::Carrier | Self::Preload => 2,
        }
    }
}

/// What a machine became.
pub(super) struct Made {
    pub(super) files: BTreeMap<String, String>,
    pub(super) pages: Vec<Abroad>,
}

/// Writes the machine of an index with so many procedures.
pub(super) fn machine(index: usize, procedures: usize, abroad: &[Abroad], random: &mut Random) -> Made {
    let (kind, letters) = KINDS.get(index % KINDS.len()).copied().unwrap_or_default();
    let axis = match random.below(3) {
        0 => ThirdAxis::None,
        1 => ThirdAxis::Water,
        _ => ThirdAxis::Plates,
    };
    let number = index + 11;
    let mut book = Book {
        random,
        id: format!("{}-{number}", letters.to_ascii_lowercase()),
        axis,
        abroad,
        shared: Lists::default(),
        changes: Vec::new(),
        files: BTreeMap::new(),
        pages: Vec::new(),
        finished: Vec::new(),
        travels: Vec::new(),
        film: 40,
        silent: Vec::new(),
        draws: true,
        after: Vec::new(),
    };
    let closing = if procedures > 2 { 2 } else { 0 };
    if closing > 0 {
        book.shared.add("fills", format!("case-oil: {{name: Case oil, of: case-oil, amount: {}.{} L, source: data-book}}", book.random.between(1, 3), book.random.between(1, 9)));
    }
    write_work(&mut book, procedures - closing, closing > 0);
    if closing > 0 {
        let mut words = Words::default();
        words.set("kind", kind);
        work::oil(&mut book, &words);
        work::proving(&mut book, &words);
    }
    let head = head(&mut book, &format!("{letters}-{number}"), kind);
    book.files.insert(format!("{}/machine.yaml", book.id), head);
    Made { files: book.files, pages: book.pages }
}

/// The work on the shafts, along two branches of the build that meet at the oil.
fn write_work(book: &mut Book<'_>, procedures: usize, closed: bool) {
    let mut stations = STATIONS;
    book.random.shuffle(&mut stations);
    let mut left = procedures;
    let mut ends: [Vec<String>; 2] = [Vec::new(), Vec::new()];
    for (turn, station) in stations.iter().enumerate() {
        if left == 0 {
            break;
        }
        let work = choose(book, left, closed);
        left -= work.pages();
        let mut words = Words::default();
        words.set("s", *station);
        words.set("S", capital(station));
        let branch = turn % 2;
        book.after = ends.get(branch).cloned().unwrap_or_default();
        match work {
            Work::Cover => work::cover(book, &words),
            Work::Nut => work::nut(book, &words),
            Work::Carrier => work::carrier(book, &words),
            Work::Preload => work::preload(book, &words),
            Work::Pack => work::pack(book, &words),
            Work::Belt => work::belt(book, &words),
        }
        if let Some(end) = ends.get_mut(branch) {
            end.clone_from(&book.after);
        }
    }
    book.after = ends.concat();
}

/// Work that fits into the procedures that are left: large pieces first, packs in few places, and nothing that waits
/// for the oil where no procedure pours it.
fn choose(book: &mut Book<'_>, left: usize, closed: bool) -> Work {
    let all: &[Work] = if !closed {
        &[Work::Cover]
    } else if left >= 2 && book.pages.is_empty() {
        &[Work::Nut, Work::Carrier, Work::Preload]
    } else {
        &[Work::Cover, Work::Nut, Work::Carrier, Work::Preload, Work::Pack, Work::Belt]
    };
    loop {
        let work = book.random.pick(all);
        // A pack's travel is set again in the last procedure, so there must be one.
        let wanted = !matches!(work, Work::Pack) || (book.axis == ThirdAxis::Plates && book.travels.len() < 2 && !book.pages.is_empty());
        if wanted && work.pages() <= left {
            return work;
        }
    }
}

pub(super) fn capital(word: &str) -> String {
    let mut letters = word.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

fn head(book: &mut Book<'_>, name: &str, kind: &str) -> String {
    let last = 100 * book.random.between(21, 79);
    let third = match book.axis {
        ThirdAxis::None => "",
        ThirdAxis::Water => "  water: {fresh: fresh water, salt: salt water}\n",
        ThirdAxis::Plates => "  plates: {stock: stock plates, kit: plates of the Tarrow kit (invented)}\n",
    };
    let not_made = match book.axis {
        ThirdAxis::Water => "not_made: [{drive: E, water: salt}]        # the motor is not sealed against salt water\n",
        ThirdAxis::None | ThirdAxis::Plates => "",
    };
    let changes = if book.changes.is_empty() {
        String::new()
    } else {
        format!("changes:\n{}", book.changes.iter().map(|change| format!("  - {change}\n")).collect::<String>())
    };
    let silent = if book.silent.is_empty() { String::new() } else { format!(", silent: [{}]", book.silent.join(", ")) };
    format!(
        "name: {name}\nmaker: Works {} at the quay (invented)\nkind: {kind}\nmass: {} kg\nrevision: 2\ndate: 2026-0{}-{:02}\n{changes}\
         variants:\n  drive: {{M: hand crank, E: electric motor}}\n  serial: {{early: ≤ {}, late: ≥ {last}}}\n{third}{not_made}\
         recordings:\n  bench-film: {{address: https://films.example/{}, title: {name} on the bench, length: '{}'{silent}}}\n\
         materials:\n  case-oil: {{name: Oil of the {kind}, kind: oil, grade: mineral gear oil ISO VG {}, base: mineral, pack: 5 L, source: data-book}}\n\
         sources:\n  data-book: {{title: {name} data book (invented), kind: maker, edition: {}, page: {}, date: 20{}-05-12}}\n\
         # what more than one procedure names\n{}",
        book.random.between(2, 98),
        book.random.between(26, 90),
        book.random.between(4, 9),
        book.random.between(1, 28),
        last - 1,
        book.id,
        moment(book.film + 60),
        book.random.pick(&[150, 220, 320]),
        book.random.between(1, 4),
        book.random.between(3, 80),
        book.random.between(11, 24),
        book.shared.yaml(),
    )
}
