//! A finding as it is kept from one run to the next: places by the name of their file, the rule by its name.

use super::{FileId, FileTable, Finding, Place, Rule, Severity};
use serde::{Deserialize, Serialize};

/// A finding that can be written down and read again.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct StoredFinding {
    rule: String,
    severity: u8,
    message: String,
    place: StoredPlace,
    label: String,
    related: Vec<(StoredPlace, String)>,
    figures: Vec<String>,
    fix: String,
    about: Option<String>,
}

#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
struct StoredPlace {
    file: String,
    start: usize,
    end: usize,
}

impl StoredPlace {
    fn of(place: &Place, files: &FileTable) -> Self {
        Self { file: files.name(place.file).to_owned(), start: place.start, end: place.end }
    }

    fn restore(&self, file: &dyn Fn(&str) -> Option<FileId>) -> Option<Place> {
        (self.start <= self.end).then_some(())?;
        Some(Place::new(file(&self.file)?, self.start..self.end))
    }
}

impl StoredFinding {
    /// A finding to be kept; nobody answers for it yet.
    #[must_use]
    pub fn of(finding: &Finding, files: &FileTable) -> Self {
        Self {
            rule: finding.rule().name.to_owned(),
            severity: match finding.grade() {
                Severity::Note => 0,
                Severity::Warning => 1,
                Severity::Error => 2,
            },
            message: finding.message().to_owned(),
            place: StoredPlace::of(finding.place(), files),
            label: finding.label_text().to_owned(),
            related: finding.related_places().iter().map(|(place, what)| (StoredPlace::of(place, files), what.clone())).collect(),
            figures: finding.figure_lines().to_vec(),
            fix: finding.fix_text().to_owned(),
            about: finding.subject().map(str::to_owned),
        }
    }

    /// The finding again. None where its rule or a file of it is not known any more.
    #[must_use]
    pub fn restore(&self, rule: &dyn Fn(&str) -> Option<&'static Rule>, file: &dyn Fn(&str) -> Option<FileId>) -> Option<Finding> {
        let severity = match self.severity {
            0 => Severity::Note,
            1 => Severity::Warning,
            2 => Severity::Error,
            _ => return None,
        };
        let mut finding = Finding::new(rule(&self.rule)?, self.place.restore(file)?, self.message.clone())
            .severity(severity)
            .label(self.label.clone())
            .figures(self.figures.iter().cloned())
            .fix(self.fix.clone());
        for (place, what) in &self.related {
            finding = finding.related(place.restore(file)?, what.clone());
        }
        Some(match &self.about {
            Some(about) => finding.about(about.clone()),
            None => finding,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::finding::Explanation;

    static RULE: Rule = Rule {
        name: "some-rule",
        severity: Severity::Warning,
        summary: "",
        explanation: Explanation { finds: "", matters: "", may_be_wrong: "", example: "", instead: "" },
    };

    #[test]
    fn a_finding_comes_back_as_it_was() {
        let mut files = FileTable::default();
        let (hub, shop) = (files.add("axle/hub.md", "25–30\n"), files.add("shop.yaml", "x: 1\n"));
        let finding = Finding::new(&RULE, Place::new(hub, 0..5), "no unit")
            .severity(Severity::Error)
            .label("here")
            .related(Place::new(shop, 0..1), "there")
            .figure("25 N·m")
            .fix("write it")
            .about("nut.torque");
        let stored = StoredFinding::of(&finding, &files);
        let json = serde_json::to_string(&stored).unwrap();
        let stored: StoredFinding = serde_json::from_str(&json).unwrap();
        let rule = |name: &str| (name == "some-rule").then_some(&RULE);
        let file = |name: &str| files.iter().find(|(_, file)| file.name == name).map(|(id, _)| id);
        assert_eq!(stored.restore(&rule, &file), Some(finding));
        assert_eq!(stored.restore(&|_| None, &file), None);
        assert_eq!(stored.restore(&rule, &|name| file(name).filter(|_| name != "shop.yaml")), None);
    }
}
