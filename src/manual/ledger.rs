//! The ledger: every value of a manual as written, for comparing one state of it with another.

use super::lists::{Lists, WrittenValue};
use super::model::{History, Manual};
use super::shop::Date;
use super::varied::Combination;
use crate::finding::{FileId, Place};
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// What the ledger's file says it is.
const FORMAT: &str = "benchleaf-values";

/// The home of what all machines share.
const SHOP: &str = "shop";

/// The version of the ledger's file.
const VERSION: u32 = 1;

/// Fields that are words about a thing, not values of the work.
/// A calibration that is renewed changes no work.
const WORDS: [&str; 14] = ["name", "note", "source", "sources", "decided", "got", "by", "licence", "balloons", "because", "title", "means", "calibrated", "calibrate_every"];

/// Whether a field holds a value of the work, not words about a thing.
pub(super) fn is_value(field: &str) -> bool {
    !WORDS.contains(&field)
}

/// Every value of a manual.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Ledger {
    format: String,
    version: u32,
    /// The manual's title: what has another is another manual.
    pub title: String,
    /// The front matters, by path of home: `shop`, `tarn-18`, `tarn-18/close-gearcase`.
    pub homes: BTreeMap<String, LedgerHome>,
}

/// The values of one front matter.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct LedgerHome {
    /// Its revision.
    pub revision: Option<u64>,
    /// Its date.
    pub date: Option<String>,
    /// The values by `list/id.field`, and by the condition under which each holds (empty: always).
    pub values: BTreeMap<String, BTreeMap<String, String>>,
    /// The sources that entries name, by `list/id` and by condition. Lists of values of earlier versions have none.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub sources: BTreeMap<String, BTreeMap<String, String>>,
}

/// Where a value of the ledger stands today.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LedgerPlace {
    /// The value.
    pub place: Place,
    /// Its text.
    pub text: String,
}

impl Ledger {
    /// The ledger of a manual.
    #[must_use]
    pub fn of(manual: &Manual) -> Self {
        let mut ledger = Self { format: FORMAT.to_owned(), version: VERSION, title: manual.title.clone(), homes: BTreeMap::new() };
        for (name, lists, history, _) in homes(manual) {
            ledger.homes.insert(name, LedgerHome::of(lists, history));
        }
        ledger
    }

    /// What [`Ledger::part`] gives of a manual's ledger, without the values of all others.
    #[must_use]
    pub fn part_of(manual: &Manual, machine: &str) -> Option<BTreeMap<String, LedgerHome>> {
        let own = homes(manual).into_iter().filter(|(name, ..)| is_home_of(name, machine));
        let part: BTreeMap<String, LedgerHome> = own.map(|(name, lists, history, _)| (name, LedgerHome::of(lists, history))).collect();
        (!part.is_empty()).then_some(part)
    }

    /// The front matters of one machine; none where the ledger has no such machine.
    #[must_use]
    pub fn part(&self, machine: &str) -> Option<BTreeMap<String, LedgerHome>> {
        let part: BTreeMap<String, LedgerHome> =
            self.homes.range(machine.to_owned()..).take_while(|(home, _)| home.starts_with(machine)).filter(|(home, _)| is_home_of(home, machine)).map(|(home, values)| (home.clone(), values.clone())).collect();
        (!part.is_empty()).then_some(part)
    }

    /// The ledger of some front matters alone, as [`LedgerHome::to_json_part`] has written them. None where they are not so.
    #[must_use]
    pub fn of_parts(title: &str, parts: &BTreeMap<String, String>) -> Option<Self> {
        let read = |(home, text): (&String, &String)| Some((home.clone(), serde_json::from_str(text).ok()?));
        let homes = parts.iter().map(read).collect::<Option<_>>()?;
        Some(Self { format: FORMAT.to_owned(), version: VERSION, title: title.to_owned(), homes })
    }

    /// The ids of the machines that have front matters in it.
    pub fn machines(&self) -> impl Iterator<Item = &str> {
        self.homes.keys().filter(|home| *home != SHOP).map(|home| home.split('/').next().unwrap_or(home))
    }

    /// Reads the ledger's file.
    ///
    /// # Errors
    /// What keeps it from being read, in words.
    pub fn parse(bytes: &[u8]) -> Result<Self, String> {
        let ledger: Self = serde_json::from_slice(bytes).map_err(|error| format!("is no list of values: {error}"))?;
        if ledger.format != FORMAT {
            return Err("is no list of values of a manual".to_owned());
        }
        if ledger.version != VERSION {
            return Err(format!("is of version {}, and this Benchleaf reads version {VERSION}", ledger.version));
        }
        Ok(ledger)
    }

    /// The ledger's file: the same values give the same bytes.
    #[must_use]
    pub fn to_json(&self) -> Vec<u8> {
        // Maps of strings and numbers can't fail to be written.
        let mut bytes = serde_json::to_vec_pretty(self).unwrap_or_default();
        bytes.push(b'\n');
        bytes
    }
}

/// The values of one front matter that the ledger holds, in the order written.
pub(super) fn values(lists: &Lists) -> impl Iterator<Item = &WrittenValue> {
    lists.written.iter().filter(|written| !WORDS.contains(&written.field))
}

impl Ledger {
    /// The ledger's file, as [`Ledger::to_json`] writes it, with further front matters as [`LedgerHome::to_json_part`] has
    /// written them: of two of one name those.
    #[must_use]
    pub fn to_json_with(&self, further: &[(&str, &str)]) -> Vec<u8> {
        let own: Vec<(&str, String)> = self.homes.iter().map(|(home, values)| (home.as_str(), values.to_json_part())).collect();
        let own = own.iter().map(|(home, text)| (*home, text.as_str()));
        let homes: BTreeMap<&str, &str> = own.chain(further.iter().copied()).collect();
        // Texts can't fail to be written.
        let text = |text: &str| serde_json::to_string(text).unwrap_or_default();
        let mut all = format!("{{\n  \"format\": {},\n  \"version\": {},\n  \"title\": {},\n  \"homes\": {{", text(&self.format), self.version, text(&self.title));
        for (index, (home, values)) in homes.iter().enumerate() {
            all.push_str(if index == 0 { "\n    " } else { ",\n    " });
            all.push_str(&text(home));
            all.push_str(": ");
            all.push_str(values);
        }
        all.push_str("\n  }\n}\n");
        all.into_bytes()
    }
}

impl LedgerHome {
    fn of(lists: &Lists, history: &History) -> Self {
        let mut home = Self { revision: history.revision, date: history.date.map(|date: Date| date.to_string()), ..Self::default() };
        for written in values(lists) {
            let key = [written.kind.key(), "/", &written.id, ".", written.field].concat();
            home.values.entry(key).or_default().insert(condition(&written.when), written.text.clone());
        }
        for written in lists.written.iter().filter(|written| written.field == "source") {
            let key = [written.kind.key(), "/", &written.id].concat();
            home.sources.entry(key).or_default().insert(condition(&written.when), written.text.clone());
        }
        home
    }

    /// The values as they stand in the ledger's file.
    #[must_use]
    pub fn to_json_part(&self) -> String {
        serde_json::to_string_pretty(self).unwrap_or_default().replace('\n', "\n    ")
    }
}

/// Whether a front matter is a machine's own or one of its procedures'.
fn is_home_of(home: &str, machine: &str) -> bool {
    home.strip_prefix(machine).is_some_and(|rest| rest.is_empty() || rest.starts_with('/'))
}

/// A condition as the ledger writes it: `serial late, shaft L`.
pub(super) fn condition(when: &Combination) -> String {
    // Most values hold always.
    if when.is_always() { String::new() } else { when.words().replace(" · ", ", ") }
}

/// Every front matter that holds values, with its name in the ledger.
#[must_use]
pub fn homes(manual: &Manual) -> Vec<(String, &Lists, &History, FileId)> {
    let mut homes = vec![(SHOP.to_owned(), &manual.shop, &manual.shop_history, manual.file)];
    for machine in &manual.machines {
        homes.push((machine.id.clone(), &machine.lists, &machine.history, machine.file));
        for procedure in &machine.procedures {
            homes.push((format!("{}/{}", machine.id, procedure.id), &procedure.lists, &procedure.history, procedure.file));
        }
    }
    homes
}

/// Where a value stands today: by its key and condition in the ledger.
#[must_use]
pub fn ledger_place(lists: &Lists, key: &str, when: &str) -> Option<LedgerPlace> {
    lists
        .written
        .iter()
        .find(|written| format!("{}/{}.{}", written.kind.key(), written.id, written.field) == key && condition(&written.when) == when)
        .map(|written| LedgerPlace { place: written.place.clone(), text: written.text.clone() })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn home(value: &str) -> LedgerHome {
        let values = BTreeMap::from([("fasteners/nut.torque".to_owned(), BTreeMap::from([(String::new(), value.to_owned())]))]);
        LedgerHome { revision: Some(2), date: None, values, sources: BTreeMap::new() }
    }

    #[test]
    fn a_file_put_together_from_parts_is_the_file_written_at_once() {
        let homes = [("shop", home("1 N·m")), ("axle/hub", home("\"2\"\n N·m")), ("axle", LedgerHome::default()), ("a", home("3"))];
        let of = |homes: &[(&str, LedgerHome)]| Ledger {
            format: FORMAT.to_owned(),
            version: VERSION,
            title: "A \"title\"".to_owned(),
            homes: homes.iter().map(|(name, home)| ((*name).to_owned(), home.clone())).collect(),
        };
        let parts: Vec<(&str, String)> = homes[1..].iter().map(|(name, home)| (*name, home.to_json_part())).collect();
        let parts: Vec<(&str, &str)> = parts.iter().map(|(name, text)| (*name, text.as_str())).collect();
        let joined = of(&homes[..1]).to_json_with(&parts);
        assert_eq!(String::from_utf8(joined).unwrap(), String::from_utf8(of(&homes).to_json()).unwrap());
        let written = homes.iter().map(|(name, home)| ((*name).to_owned(), home.to_json_part())).collect();
        assert_eq!(Ledger::of_parts("A \"title\"", &written), Some(of(&homes)));
        assert_eq!(Ledger::of_parts("", &BTreeMap::from([("axle".to_owned(), "[".to_owned())])), None);
    }

    #[test]
    fn a_machine_has_its_own_homes_and_no_other_of_a_longer_name() {
        let ledger = Ledger { homes: ["axle", "axle-2", "axle/hub", "axlet", "shop"].map(|name| (name.to_owned(), home("1"))).into(), ..Ledger::default() };
        let part = ledger.part("axle").unwrap();
        assert_eq!(part.keys().map(String::as_str).collect::<Vec<_>>(), ["axle", "axle/hub"]);
        assert!(ledger.part("ax").is_none());
    }
}
