//! Hazards told in words: grinding, welding, compressed air, acid, a hot cap, and petrol as a cleaner.

use super::safety::{HAZARD_WITHOUT_PPE, known_protections, protects};
use super::sentences::{Passage, Sentence};
use super::sides::words_of;
use super::spoken::is_filler;
use super::words::Words;
use super::{Context, every};
use crate::finding::{Explanation, Finding, Rule, Severity};
use crate::manual::{Procedure, Scope, Step, Verb};
use std::collections::BTreeSet;
use std::ops::Range;

/// Parts are cleaned in petrol.
pub(super) static FUEL_AS_CLEANER: Rule = Rule {
    name: "fuel-as-cleaner",
    severity: Severity::Warning,
    summary: "Something is cleaned with petrol or other fuel.",
    explanation: Explanation {
        finds: "Sentences of a step that clean, wash, degrease, scrub, wipe, rinse or soak something with or in petrol, gasoline or fuel. Silent where the sentence forbids it, leads to another step, or speaks of a tank, a carburettor, a float bowl, a fuel line or a filter.",
        matters: "Petrol vapour creeps along the floor and finds a pilot light in the next room; and what is in petrol goes through the skin.",
        may_be_wrong: "Where a maker's sheet asks for it on a part that only ever holds fuel: name that part, or waive it with the page.",
        example: "Wash the carrier in petrol.",
        instead: "[Wash the carrier with degreaser](apply:degreaser@carrier), in the open, with [gloves](tool:solvent-gloves).",
    },
};

/// A hazard that words tell of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Danger {
    Chips,
    Air,
    Acid,
    Arc,
    Scald,
}

impl Danger {
    /// What a protection may be against to serve: a shield against springs or pressure stands before the eyes, too.
    fn against(self) -> &'static [&'static str] {
        match self {
            Self::Chips => &["chips", "spring", "pressure"],
            Self::Air => &["chips", "pressure"],
            Self::Acid => &["solvent"],
            Self::Arc => &["heat", "chips", "electric"],
            Self::Scald => &["heat", "pressure"],
        }
    }

    fn words(self) -> &'static str {
        match self {
            Self::Chips => "flying chips",
            Self::Air => "what compressed air drives before it",
            Self::Acid => "what burns skin and eyes",
            Self::Arc => "glare, sparks and hot metal",
            Self::Scald => "what boils over as the cap comes off",
        }
    }
}

/// Words that make a sentence forbid what it speaks of, or leave it to somebody else.
const DENIES: [&str; 17] = [
    "not", "never", "no", "nobody", "nothing", "don't", "don’t", "avoid", "without", "instead", "cannot", "can't", "can’t", "nor", "neither", "vendor", "forbidden",
];
/// Words for what protects eyes, as prose names it. A machine has specs, too: alone they are none.
const BEFORE_EYES: [&str; 25] = [
    "goggle", "goggles", "glasses", "spectacles", "visor", "eyewear", "eye shield", "face shield", "eye-shield", "face-shield", "eye protection", "eye-protection",
    "face protection", "face mask", "face-mask", "safety specs", "eye specs", "your specs", "wear specs", "specs on", "protect your face", "shield your face",
    "cover your face", "guard your face", "protects your face",
];
/// Things that have eyes of their own.
const WITH_EYES: [&str; 20] = [
    "spring", "springs", "rope", "ropes", "strap", "straps", "sling", "slings", "chain", "chains", "cable", "cables", "bolt", "bolts", "rod", "rods", "link", "links",
    "hook", "hooks",
];
/// Words for what protects hands.
const ON_HANDS: [&str; 2] = ["gloves", "apron"];
/// What a sentence with some hazard has among its words: others are not read.
const MARKS: [&str; 18] = ["grind", "disc", "saw", "weld", "braze", "radiator", "header", "drill", "chisel", "wire", "compressed", "acid", "stripper", "blast", "petrol", "gasoline", "fuel", "blow"];

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for (_, procedure, scope) in every::procedures(context.manual) {
        let mut told: BTreeSet<Danger> = BTreeSet::new();
        let mut tools: BTreeSet<&str> = BTreeSet::new();
        let mut shields = Shields::default();
        let mut earlier: Vec<String> = Vec::new();
        for step in &procedure.steps {
            let named = step.acts.iter().filter(|act| act.verb == Some(Verb::Tool)).flat_map(|act| &act.things);
            tools.extend(named.map(|thing| thing.id.as_str()));
            let said = words_of(step).to_ascii_lowercase();
            let marked = MARKS.iter().any(|mark| said.contains(mark));
            earlier.push(said);
            // Most procedures have no such step: what they say of goggles is not looked for.
            if marked {
                earlier.drain(..).for_each(|said| shields.note(&Words::of(&said)));
                look(scope, procedure, step, (&tools, shields), &mut told, findings);
            }
        }
    }
}

/// What the words up to a step speak of: then somebody has thought of it.
#[derive(Clone, Copy, Debug, Default)]
struct Shields {
    eyes: bool,
    hands: bool,
}

impl Shields {
    fn note(&mut self, said: &Words<'_>) {
        self.eyes |= said.first(&BEFORE_EYES).is_some() || said.every(&["eyes"]).iter().any(|eyes| !are_of_a_thing(said, eyes));
        self.hands |= said.first(&ON_HANDS).is_some();
    }

    fn serve(self, danger: Danger) -> bool {
        match danger {
            // Goggles alone are no shade against an arc, and no glove against steam: but somebody has thought of it.
            Danger::Acid | Danger::Scald => self.eyes || self.hands,
            _ => self.eyes,
        }
    }
}

/// Whether eyes are those of a spring or a rope: `both eyes of the spring`.
fn are_of_a_thing(said: &Words<'_>, eyes: &Range<usize>) -> bool {
    let mut behind = said.behind(eyes).split_whitespace().map(|word| word.trim_end_matches(|sign: char| !sign.is_alphanumeric())).take(4);
    behind.next() == Some("of") && behind.any(|word| WITH_EYES.contains(&word))
}

fn look(scope: Scope<'_>, procedure: &Procedure, step: &Step, (tools, shields): (&BTreeSet<&str>, Shields), told: &mut BTreeSet<Danger>, findings: &mut Vec<Finding>) {
    let about = format!("{}#{}", procedure.id, step.id);
    let mut fuelled = false;
    for passage in Passage::all(step) {
        let sentences = passage.sentences();
        for (at, sentence) in sentences.iter().enumerate() {
            // `Chisel a mark? Take a scriber instead.`
            let asks = sentences.get(at + 1).is_some_and(|next| next.answers);
            if asks || sentence.has(&DENIES) || sentence.leads_elsewhere() {
                continue;
            }
            if let Some(words) = cleaned_in_fuel(sentence).filter(|_| !fuelled) {
                fuelled = true;
                findings.extend(in_fuel(sentence, &words).map(|finding| finding.about(about.clone())));
            }
            let Some((danger, words)) = danger(sentence).filter(|(danger, _)| !shields.serve(*danger) && !told.contains(danger)) else { continue };
            told.insert(danger);
            if protects(scope, tools, danger.against()) {
                continue;
            }
            findings.extend(bare(scope, sentence, danger, &words).map(|finding| finding.about(about.clone())));
        }
    }
}

fn in_fuel(sentence: &Sentence<'_, '_>, words: &Range<usize>) -> Option<Finding> {
    Some(
        Finding::new(&FUEL_AS_CLEANER, sentence.place(words)?, format!("‘{}’: fuel is no cleaner", sentence.text(words)))
            .label("its vapour burns")
            .fix("take a degreaser made for it, in the open, with gloves: apply:DEGREASER@THING"),
    )
}

fn bare(scope: Scope<'_>, sentence: &Sentence<'_, '_>, danger: Danger, words: &Range<usize>) -> Option<Finding> {
    let hazards = danger.against();
    let known = known_protections(scope, hazards);
    let fix = if danger == Danger::Arc {
        "name in a notice before this sentence what shades eyes and face, what covers the skin, and what keeps sparks from fuel".to_owned()
    } else if known.is_empty() {
        let first = hazards.first().copied().unwrap_or_default();
        format!("list what protects from it (kind: protection, against: [{first}]) and name it in a notice before this sentence")
    } else {
        format!("name it in a notice before this sentence: {}", known.join(" or "))
    };
    Some(
        Finding::new(&HAZARD_WITHOUT_PPE, sentence.place(words)?, format!("‘{}’, and no protection is named against {}", sentence.text(words), danger.words()))
            .severity(Severity::Warning)
            .label("no protection")
            .fix(fix),
    )
}

/// The hazard of a sentence, and the words that tell it.
fn danger(sentence: &Sentence<'_, '_>) -> Option<(Danger, Range<usize>)> {
    (0..sentence.count()).find_map(|at| {
        let begins = begins(sentence, at);
        let found = match sentence.word(at) {
            "grind" if begins => ground(sentence, at).then_some((Danger::Chips, at)),
            "drill" | "chisel" if begins => (takes_object(sentence, at + 1) && !sentence.has(&["scriber", "scribe"])).then_some((Danger::Chips, at)),
            "wire" if begins && sentence.word(at + 1) == "brush" => (takes_object(sentence, at + 2) && !is_soft(sentence)).then_some((Danger::Chips, at)),
            "wire" if matches!(sentence.word(at + 1), "brush" | "wheel") => (by_means(sentence, at) && !is_soft(sentence)).then_some((Danger::Chips, at)),
            "blast" if blasts(sentence, at) => takes_object(sentence, at + 1).then_some((Danger::Chips, at)),
            "sandblast" | "gritblast" | "beadblast" if begins => takes_object(sentence, at + 1).then_some((Danger::Chips, at)),
            "grinder" | "disc" if is_cutter(sentence, at) => (by_means(sentence, at - 1) && orders_a_cut(sentence)).then_some((Danger::Chips, at - 1)),
            "hacksaw" | "saw" if begins => takes_object(sentence, at + 1).then_some((Danger::Chips, at)),
            "weld" | "braze" if begins => takes_object(sentence, at + 1).then_some((Danger::Arc, at)),
            "radiator" | "header" if sentence.word(at + 1) == "cap" => opens_hot(sentence, at).then_some((Danger::Scald, at)),
            "compressed" if sentence.word(at + 1) == "air" => (by_means(sentence, at) && !fills(sentence, at)).then_some((Danger::Air, at)),
            "acid" => (by_means(sentence, at) && is_end(sentence, at + 1)).then_some((Danger::Acid, at)),
            "stripper" if sentence.word(at.wrapping_sub(1)) == "paint" => is_spread(sentence, at).then_some((Danger::Acid, at)),
            _ => None,
        };
        found.map(|(danger, at)| (danger, clause(sentence, at)))
    })
}

/// Whether a clause, or an order within one, begins at a word.
fn begins(sentence: &Sentence<'_, '_>, at: usize) -> bool {
    sentence.parts_before(at) || matches!(sentence.word(at - 1), "and" | "then" | "or" | "now" | "first" | "carefully" | "gently" | "next")
}

/// `with an angle grinder`, `with a cutting disc`.
fn is_cutter(sentence: &Sentence<'_, '_>, at: usize) -> bool {
    at > 0 && matches!((sentence.word(at - 1), sentence.word(at)), ("angle" | "die", "grinder") | ("cutting" | "grinding", "disc"))
}

/// Orders that a grinder or a disc carries out.
const CUTS: [&str; 28] = [
    "cut", "grind", "slit", "split", "saw", "slice", "part", "trim", "shorten", "open", "dress", "clean", "remove", "take", "free", "slot", "notch", "work", "go", "get",
    "bevel", "chamfer", "flatten", "sever", "relieve", "smooth", "shape", "finish",
];

/// Whether a clause orders such work: marks that a grinder left throw no chips.
fn orders_a_cut(sentence: &Sentence<'_, '_>) -> bool {
    (0..sentence.count()).any(|at| CUTS.contains(&sentence.word(at)) && begins(sentence, at))
}

/// `Undo the radiator cap`, where nothing says that it is cold.
fn opens_hot(sentence: &Sentence<'_, '_>, at: usize) -> bool {
    let opens = |word: &str| matches!(word, "open" | "undo" | "remove" | "unscrew" | "twist" | "take" | "slacken" | "loosen");
    let ordered = (at.saturating_sub(3)..at).any(|before| opens(sentence.word(before)) && begins(sentence, before));
    ordered && !is_put_on(sentence, at + 2) && !is_cold(sentence)
}

/// Whether a cap, by the word behind it, goes on or comes from a shelf: `twist the cap on until it clicks`.
fn is_put_on(sentence: &Sentence<'_, '_>, at: usize) -> bool {
    let sits = |word: &str| matches!(word, "radiator" | "header" | "tank" | "engine" | "neck" | "filler");
    match sentence.word(at) {
        // The cap on the tank is the one that comes off.
        "on" => !is_filler(sentence.word(at + 1)),
        "from" => !(at + 1..at + 5).any(|at| sits(sentence.word(at))),
        _ => false,
    }
}

/// What no longer burns a hand, in °C: common practice.
const COLD_TO_THE_HAND: u32 = 50;

/// Whether a sentence says that what it speaks of has cooled: the next morning, at room temperature, at less than 40 °C.
fn is_cold(sentence: &Sentence<'_, '_>) -> bool {
    let below = |at: usize| {
        let number = at + usize::from(sentence.word(at + 1) == "than") + 1;
        let cold = sentence.word(number).parse().is_ok_and(|degrees: u32| degrees <= COLD_TO_THE_HAND);
        matches!((sentence.word(at), sentence.word(at + 1)), ("less", "than") | ("below" | "under", _)) && cold && sentence.word(number + 1) == "c"
    };
    let at_room = |at: usize| sentence.word(at) == "room" && sentence.word(at + 1) == "temperature";
    sentence.has(&["cold", "cool", "cooled", "cools", "new", "morning", "night", "overnight"]) || (0..sentence.count()).any(|at| at_room(at) || below(at))
}

/// Whether what an order does follows: `the heads`, `it`, `off the burr`.
fn takes_object(sentence: &Sentence<'_, '_>, at: usize) -> bool {
    let word = sentence.word(at);
    is_filler(word) || matches!(word, "it" | "them" | "off" | "out" | "away" | "through" | "down" | "into" | "each" | "every" | "back" | "any")
}

/// Air that stays in what it fills drives nothing: `inflate the tyre with compressed air`.
fn fills(sentence: &Sentence<'_, '_>, at: usize) -> bool {
    let filling = ["inflate", "inflates", "inflated", "inflating", "fill", "fills", "filled", "pumped", "charge", "charged"];
    (0..at).rev().take_while(|before| !sentence.parts_before(before + 1)).any(|before| filling.contains(&sentence.word(before)))
}

/// A valve is ground in with paste, an edge on a stone: that throws no chips.
fn ground(sentence: &Sentence<'_, '_>, at: usize) -> bool {
    let laps = sentence.has(&["paste", "compound", "lap", "lapping", "suction", "valve", "valves", "seat", "seats", "hand", "stone", "oilstone", "oilstones", "whetstone", "whetstones"]);
    takes_object(sentence, at + 1) && !laps
}

fn is_soft(sentence: &Sentence<'_, '_>) -> bool {
    sentence.has(&["brass", "soft", "nylon", "plastic", "bronze", "hand"])
}

/// `bead-blast the case`.
fn blasts(sentence: &Sentence<'_, '_>, at: usize) -> bool {
    at > 0 && matches!(sentence.word(at - 1), "bead" | "sand" | "grit" | "soda" | "shot" | "vapour") && begins(sentence, at - 1)
}

/// Whether a word, or the three before it, is what something is done with: `with compressed air`, `in dilute acid`.
fn by_means(sentence: &Sentence<'_, '_>, at: usize) -> bool {
    let first = at.saturating_sub(4);
    (first..at).rev().take_while(|before| !sentence.parts_before(before + 1)).any(|before| matches!(sentence.word(before), "with" | "by" | "in"))
        && !(first..at).any(|before| matches!(sentence.word(before), "come" | "comes" | "filled" | "supplied" | "marked"))
}

/// Whether a noun is over before a word: not `acid free`, `fuel filter`, `petrol tank`.
fn is_end(sentence: &Sentence<'_, '_>, at: usize) -> bool {
    at >= sentence.count()
        || sentence.parts_before(at)
        || matches!(sentence.word(at), "and" | "or" | "for" | "until" | "till" | "to" | "first" | "before" | "then" | "over" | "from" | "in" | "on" | "once" | "again" | "outside" | "overnight")
}

fn is_spread(sentence: &Sentence<'_, '_>, at: usize) -> bool {
    let orders = ["brush", "put", "apply", "lay", "spread", "smear", "use", "pour", "spray", "paint"];
    let ordered = (0..at).any(|before| orders.contains(&sentence.word(before)) && begins(sentence, before) && at - before <= 8);
    ordered || by_means(sentence, at - 1)
}

/// Things that hold fuel anyway.
const FUEL_PARTS: [&str; 14] =
    ["tank", "carburettor", "carburetor", "carb", "bowl", "float", "jet", "jets", "line", "lines", "hose", "filter", "strainer", "pump"];

/// The words that clean something in fuel.
fn cleaned_in_fuel(sentence: &Sentence<'_, '_>) -> Option<Range<usize>> {
    let verb = (0..sentence.count()).find(|at| matches!(sentence.word(*at), "clean" | "wash" | "degrease" | "scrub" | "wipe" | "soak" | "rinse") && begins(sentence, *at))?;
    let fuel = (verb + 2..(verb + 12).min(sentence.count())).take_while(|at| !sentence.parts_before(*at)).find(|at| matches!(sentence.word(*at), "petrol" | "gasoline" | "fuel"))?;
    let vague = |word: &str| is_filler(word) || matches!(word, "little" | "some" | "bit" | "drop" | "bath" | "tray" | "can" | "of" | "plain");
    let before = (verb + 1..fuel).rev().take(5).find(|at| !vague(sentence.word(*at)))?;
    let means = matches!(sentence.word(before), "with" | "in");
    (means && is_end(sentence, fuel + 1) && !sentence.has(&FUEL_PARTS)).then_some(verb..fuel + 1)
}

/// From a word to the end of its clause, six words at most.
fn clause(sentence: &Sentence<'_, '_>, at: usize) -> Range<usize> {
    let begin = (at.saturating_sub(5)..=at).rev().find(|begin| begins(sentence, *begin)).unwrap_or(at);
    let end = (at + 1..sentence.count()).find(|end| sentence.parts_before(*end) || *end >= begin + 9).unwrap_or_else(|| sentence.count());
    begin..end
}
