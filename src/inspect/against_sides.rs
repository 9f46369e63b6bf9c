//! Words of an act against its list: which side looks at what.

use super::against_list::{Job, WORDS_AGAINST_LIST};
use super::sentences::words_of;
use super::spoken::{is_filler, singular};
use crate::finding::{Finding, Place};
use crate::manual::{Case, Faces, ListKind, MEDIA, Material, Scope, ThingRef, Varied, Verb};
use std::collections::BTreeSet;
use std::ops::Range;

/// What a medium that has no entry goes by.
const MEDIUM_WORDS: [(&str, &[&str]); 4] = [
    ("water", &["water", "lake", "sea", "seawater", "river", "coolant"]),
    ("air", &["air", "outside", "atmosphere", "weather", "dust"]),
    ("fuel", &["fuel", "petrol", "gasoline", "diesel", "mixture"]),
    ("exhaust", &["exhaust", "gas"]),
];

/// Words by which a side looks at something.
const TOWARDS: [&str; 7] = ["to", "towards", "toward", "against", "at", "facing", "faces"];
/// Words that may stand between a side and where it looks.
const TURNED: [&str; 18] = [
    "side", "edge", "end", "face", "lip", "outwards", "inwards", "upwards", "downwards", "up", "down", "turned", "looking", "looks", "look", "pointing", "points", "facing",
];
/// Words at which what a side looks at is over.
const OVER: [&str; 22] = [
    "and", "or", "of", "in", "on", "with", "by", "from", "as", "so", "until", "then", "not", "never", "over", "under", "for", "when", "while", "side", "end", "before",
];

/// A side in an act's words, or around it, that looks elsewhere than the list says.
pub(super) fn check(job: &Job<'_, '_, '_>) -> Option<Finding> {
    let thing = job.act.thing().filter(|_| matches!(job.act.verb, Some(Verb::Fit | Verb::DryFit)))?;
    let faces = faces_of(job.scope, thing)?;
    let window = window(job, thing);
    let features: BTreeSet<&str> = faces.cases.iter().flat_map(|case| toward(&case.value)).map(|(feature, _, _)| feature).collect();
    features.into_iter().find_map(|feature| {
        let cases: Vec<(&Case<Faces>, &str, &Place)> =
            faces.cases.iter().filter_map(|case| toward(&case.value).find(|(listed, _, _)| *listed == feature).map(|(_, target, place)| (case, target, place))).collect();
        // Where the side is left out in some variant, nobody knows what the words mean there.
        let whole = cases.len() == faces.cases.len();
        said(job, &window, feature).filter(|_| whole).find_map(|said| against(job, thing, feature, &cases, &said))
    })
}

fn faces_of<'a>(scope: Scope<'a>, thing: &ThingRef) -> Option<&'a Varied<Faces>> {
    match thing.kind {
        ListKind::Seals => scope.thing(|lists| &lists.seals, thing).map(|entry| &entry.what.faces),
        ListKind::Bearings => scope.thing(|lists| &lists.bearings, thing).map(|entry| &entry.what.faces),
        ListKind::Parts => scope.thing(|lists| &lists.parts, thing).map(|entry| &entry.what.faces),
        _ => None,
    }
}

/// The sides of a thing: feature, what it looks at, and where that stands.
fn toward(faces: &Faces) -> impl Iterator<Item = (&str, &str, &Place)> {
    let sides = match faces {
        Faces::Either => &[],
        Faces::Toward(sides) => sides.as_slice(),
    };
    sides.iter().map(|(feature, target)| (feature.as_str(), target.value.as_str(), &target.place))
}

/// The words that can speak of an act's thing: the whole sentence where it is the only one with sides, otherwise up to the
/// next act.
fn window(job: &Job<'_, '_, '_>, thing: &ThingRef) -> Range<usize> {
    let acts = job.sentence.acts();
    let sided = |other: &ThingRef| other != thing && faces_of(job.scope, other).is_some_and(Varied::is_given);
    if !acts.iter().filter_map(|(act, _)| act.thing()).any(sided) {
        return 0..job.sentence.count();
    }
    let next = acts.iter().map(|(_, words)| words.start).filter(|start| *start >= job.words.end).min();
    job.words.start..next.unwrap_or_else(|| job.sentence.count())
}

/// A place where a feature is said to look somewhere.
struct Said {
    words: Range<usize>,
    way: Way,
    /// What is named there.
    phrase: Range<usize>,
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Way {
    To,
    AwayFrom,
    Outwards,
    Inwards,
}

/// Every place where a feature is said to look somewhere.
fn said(job: &Job<'_, '_, '_>, window: &Range<usize>, feature: &str) -> impl Iterator<Item = Said> {
    let sentence = job.sentence;
    let wanted: Vec<&str> = feature.split('-').collect();
    let mut found = Vec::new();
    for at in window.clone() {
        let stands = wanted.iter().enumerate().all(|(more, word)| sentence.word(at + more) == *word);
        let opens = sentence.parts_before(at) || at == window.start || matches!(sentence.word(at - 1), "with" | "its" | "the" | "their" | "and");
        if !stands || !opens {
            continue;
        }
        let mut next = at + wanted.len();
        let free = |next: usize| next < window.end && !sentence.parts_before(next);
        // ‘Facing the oil’ is the word that leads on, ‘facing to the oil’ is one before it.
        let leads = |next: usize| sentence.word(next) == "facing" && !TOWARDS.contains(&sentence.word(next + 1));
        while free(next) && TURNED.contains(&sentence.word(next)) && !leads(next) {
            next += 1;
        }
        let turned = next.checked_sub(1).filter(|last| *last >= at + wanted.len()).map_or("", |last| sentence.word(last));
        let away = free(next + 1) && sentence.word(next) == "away" && sentence.word(next + 1) == "from";
        if !free(next) || !(away || TOWARDS.contains(&sentence.word(next))) {
            // A word of direction that nothing follows says where all by itself.
            let way = match turned {
                "outwards" => Way::Outwards,
                "inwards" => Way::Inwards,
                _ => continue,
            };
            if !free(next) {
                found.push(Said { words: at..next, way, phrase: next..next });
            }
            continue;
        }
        let from = next + if away { 2 } else { 1 };
        let end = (from..window.end).find(|at| !free(*at) || OVER.contains(&sentence.word(*at))).unwrap_or(window.end);
        if end > from && end - from <= 4 {
            found.push(Said { words: at..end, way: if away { Way::AwayFrom } else { Way::To }, phrase: from..end });
        }
    }
    found.into_iter()
}

fn against(job: &Job<'_, '_, '_>, thing: &ThingRef, feature: &str, cases: &[(&Case<Faces>, &str, &Place)], said: &Said) -> Option<Finding> {
    let Said { words, way, phrase } = said;
    let spoken: Vec<&str> = phrase.clone().map(|at| singular(job.sentence.word(at))).filter(|word| !is_filler(word)).collect();
    let all_in = |known: &BTreeSet<String>| !spoken.is_empty() && spoken.iter().all(|word| known.contains(*word));
    let contradicts = |(case, target, _): &(&Case<Faces>, &str, &Place)| {
        let meant = all_in(&words_for(job.scope, target));
        let others: Vec<&str> = toward(&case.value).filter(|(other, listed, _)| *other != feature && listed != target).map(|(_, listed, _)| listed).collect();
        match way {
            Way::AwayFrom => return meant,
            // Outside is where the air is, where one of the sides looks at air.
            Way::Outwards => return *target != "air" && others.contains(&"air"),
            Way::Inwards => return *target == "air" && !others.is_empty(),
            Way::To => {}
        }
        let another = || !is_medium(job.scope, target) && is_apart(job.scope, thing, target, &spoken);
        !meant && (another() || others.iter().any(|other| all_in(&words_for(job.scope, other))) || (is_medium(job.scope, target) && names_a_medium(job.scope, &all_in)))
    };
    if cases.is_empty() || !cases.iter().all(contradicts) {
        return None;
    }
    let (_, _, place) = cases.first()?;
    let listed: Vec<&str> = cases.iter().map(|(_, target, _)| *target).collect();
    let (listed, side) = (listed.join(" or "), feature.replace('-', " "));
    Some(
        Finding::new(&WORDS_AGAINST_LIST, job.sentence.place(words)?, format!("‘{}’, and the list turns its {side} to {listed}", job.sentence.text(words)))
            .label("the other way round")
            .related((*place).clone(), format!("{feature}: {listed}"))
            .fix(format!("look at the part, then mend the words or faces: of {}", thing.id))
            .about(format!("{}.faces", thing.id)),
    )
}

/// Whether words name one part of the machine for certain, and that is another than the neighbour: neither sits in the other, nor in what
/// is turned.
fn is_apart(scope: Scope<'_>, thing: &ThingRef, target: &str, spoken: &[&str]) -> bool {
    let Some(noun) = spoken.last() else { return false };
    let of_target = words_for(scope, target);
    // A neighbour without an entry may be called anything.
    let Some(neighbour) = scope.find(ListKind::Parts, target).filter(|_| !spoken.iter().any(|word| of_target.contains(*word))) else { return false };
    let parts: BTreeSet<&str> = scope.homes().flat_map(|(_, lists)| lists.parts.values()).map(|entry| entry.id.as_str()).collect();
    let named: Vec<&str> = parts.into_iter().filter(|id| spoken.iter().all(|word| words_for(scope, id).contains(*word)) && last_word(scope, id).as_deref() == Some(*noun)).collect();
    let [one] = named.as_slice() else { return false };
    let sits_in = |inner: &str, outer: &str| scope.entry(|lists| &lists.parts, inner).is_some_and(|entry| entry.what.within.cases.iter().any(|case| case.value == outer));
    *one != thing.id && !sits_in(one, &neighbour.id) && !sits_in(&neighbour.id, one) && !sits_in(one, &thing.id)
}

/// The noun of a part's name: what stands last, or before the first ‘of’.
fn last_word(scope: Scope<'_>, id: &str) -> Option<String> {
    let name = scope.entry(|lists| &lists.parts, id)?.name.to_lowercase();
    let head = name.split([',', '(']).next()?.split(" of ").next()?;
    words_of(head).into_iter().filter_map(|span| head.get(span)).next_back().map(|word| singular(word).to_owned())
}

fn is_medium(scope: Scope<'_>, id: &str) -> bool {
    MEDIA.contains(&id) || scope.find(ListKind::Materials, id).is_some()
}

/// Whether the words name some medium of the manual.
fn names_a_medium(scope: Scope<'_>, all_in: &dyn Fn(&BTreeSet<String>) -> bool) -> bool {
    let runs = |material: &Material| matches!(material.kind.as_deref(), Some("oil" | "grease" | "coolant" | "fuel"));
    let materials = scope.homes().flat_map(|(_, lists)| lists.materials.values()).filter(|entry| runs(&entry.what));
    MEDIA.iter().any(|medium| all_in(&words_for(scope, medium))) || materials.into_iter().any(|entry| all_in(&words_for(scope, &entry.id)))
}

/// The words that a medium or thing goes by: those of its id and name and, of a material, of its kind.
fn words_for(scope: Scope<'_>, id: &str) -> BTreeSet<String> {
    let mut words: BTreeSet<String> = id.split('-').map(|word| singular(word).to_owned()).collect();
    let by_medium = MEDIUM_WORDS.iter().filter(|(medium, _)| *medium == id).flat_map(|(_, words)| *words);
    words.extend(by_medium.map(|word| (*word).to_owned()));
    let mut add = |text: &str| {
        let folded = text.to_lowercase();
        words.extend(words_of(&folded).into_iter().filter_map(|span| folded.get(span)).map(|word| singular(word).to_owned()));
    };
    if let Some(material) = scope.entry(|lists| &lists.materials, id) {
        add(&material.name);
        material.what.kind.as_deref().into_iter().for_each(&mut add);
        match material.what.kind.as_deref() {
            Some("fuel") => add("fuel petrol gasoline diesel mixture"),
            Some("coolant") => add("coolant water"),
            Some("oil" | "grease") => add("lubricant"),
            _ => {}
        }
    }
    if let Some(head) = ListKind::THINGS.iter().find_map(|kind| scope.find(*kind, id)).and_then(|thing| scope.head(&thing)) {
        add(head.name);
    }
    words
}
