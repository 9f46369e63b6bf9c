//! A rule's page: Markdown taken apart into samples, and its reports put back in.

use std::ops::Range;

/// A page of `tests/rules/`.
pub(crate) struct Page {
    /// The rule it is about: its level-1 heading.
    pub(crate) rule: String,
    /// Its samples, in the order of the page.
    pub(crate) samples: Vec<Sample>,
}

/// One `## Faulty` or `## Silent` section.
pub(crate) struct Sample {
    /// The heading, without its marks.
    pub(crate) heading: String,
    /// What it must come to.
    pub(crate) kind: Kind,
    /// What the base manual is changed by, in order.
    pub(crate) changes: Vec<Change>,
    /// Words of the command line behind `inspect FOLDER`.
    pub(crate) arguments: Vec<String>,
}

/// What a sample must come to.
pub(crate) enum Kind {
    /// Exactly this report.
    Faulty(Report),
    /// No finding at all, notes included.
    Silent,
}

/// The report block of a faulty sample.
pub(crate) struct Report {
    /// Its text.
    pub(crate) text: String,
    /// Whether only the end of the report stands on the page.
    pub(crate) end_only: bool,
    /// Its lines on the page, without the fences.
    lines: Range<usize>,
}

/// One change to the base manual.
pub(crate) enum Change {
    /// The file of this path has this text.
    File(String, String),
    /// A line of a `build` block.
    Build(String),
}

impl Report {
    /// As much of a report as this block holds.
    pub(crate) fn part_of(&self, whole: &str) -> String {
        let lines: Vec<&str> = whole.lines().collect();
        let wanted = if self.end_only { self.text.lines().count().max(12) } else { lines.len() };
        let from = lines.len().saturating_sub(wanted);
        lines.iter().skip(from).map(|line| format!("{line}\n")).collect()
    }
}

/// Takes a page apart. What is no part of the format is a fault: it would never be looked at.
pub(crate) fn read(text: &str) -> Result<Page, String> {
    let mut rule = None;
    let mut samples: Vec<Unfinished> = Vec::new();
    let mut lines = text.lines().enumerate();
    while let Some((number, line)) = lines.next() {
        if let Some(name) = line.strip_prefix("# ") {
            if rule.replace(name.trim().to_owned()).is_some() {
                return Err(format!("line {}: a second level-1 heading", number + 1));
            }
        } else if let Some(heading) = line.strip_prefix("## ") {
            samples.push(Unfinished::new(heading.trim(), number)?);
        } else if let Some(fence) = fence_of(line) {
            let mut block = String::new();
            let mut end = None;
            for (number, line) in lines.by_ref() {
                if fence_of(line) == Some(fence) && line.len() == fence {
                    end = Some(number);
                    break;
                }
                block.push_str(line);
                block.push('\n');
            }
            let Some(end) = end else { return Err(format!("line {}: a block is not closed", number + 1)) };
            let Some(sample) = samples.last_mut() else {
                return Err(format!("line {}: a block stands before the first section", number + 1));
            };
            let information = line.get(fence..).unwrap_or("").trim();
            sample.block(information, block, number + 1..end).map_err(|fault| format!("line {}: {fault}", number + 1))?;
        }
    }
    let samples = samples.into_iter().map(Unfinished::finish).collect::<Result<Vec<Sample>, String>>()?;
    let rule = rule.ok_or("there is no level-1 heading with the rule's name")?;
    if !samples.iter().any(|sample| matches!(sample.kind, Kind::Faulty(_))) {
        return Err("there is no faulty sample".to_owned());
    }
    if !samples.iter().any(|sample| matches!(sample.kind, Kind::Silent)) {
        return Err("there is no sample that must stay silent".to_owned());
    }
    Ok(Page { rule, samples })
}

/// The page with new text in its report blocks; `reports` in the order of the faulty samples, none to keep one.
pub(crate) fn with_reports(text: &str, page: &Page, reports: &[Option<String>]) -> String {
    let mut lines: Vec<String> = text.lines().map(str::to_owned).collect();
    let blocks = page.samples.iter().filter_map(|sample| match &sample.kind {
        Kind::Faulty(report) => Some(report),
        Kind::Silent => None,
    });
    let replaced: Vec<(&Report, &Option<String>)> = blocks.zip(reports).collect();
    for (block, report) in replaced.into_iter().rev() {
        if let Some(report) = report {
            lines.splice(block.lines.clone(), report.lines().map(str::to_owned));
        }
    }
    lines.iter().map(|line| format!("{line}\n")).collect()
}

struct Unfinished {
    heading: String,
    line: usize,
    faulty: bool,
    changes: Vec<Change>,
    arguments: Vec<String>,
    report: Option<Report>,
}

impl Unfinished {
    fn new(heading: &str, line: usize) -> Result<Self, String> {
        let faulty = heading == "Faulty" || heading.starts_with("Faulty: ");
        if !faulty && !heading.starts_with("Silent: ") {
            return Err(format!("line {}: a section is called Faulty, ‘Faulty: …’ or ‘Silent: …’", line + 1));
        }
        Ok(Self { heading: heading.to_owned(), line, faulty, changes: Vec::new(), arguments: Vec::new(), report: None })
    }

    fn block(&mut self, information: &str, text: String, lines: Range<usize>) -> Result<(), String> {
        let words: Vec<&str> = information.split_whitespace().collect();
        match words.as_slice() {
            ["report" | "report-end"] if !self.faulty => return Err("a silent sample has no report".to_owned()),
            [kind @ ("report" | "report-end")] => {
                let report = Report { text, end_only: *kind == "report-end", lines };
                if self.report.replace(report).is_some() {
                    return Err("a sample has one report".to_owned());
                }
            }
            ["build"] => self.changes.extend(text.lines().map(|line| Change::Build(line.to_owned()))),
            ["inspect"] => self.arguments.extend(text.split_whitespace().map(str::to_owned)),
            [_, path] => self.changes.push(Change::File((*path).to_owned(), text)),
            _ => return Err(format!("‘{information}’ names neither a file nor a report")),
        }
        Ok(())
    }

    fn finish(self) -> Result<Sample, String> {
        let kind = match (self.faulty, self.report) {
            (true, Some(report)) => Kind::Faulty(report),
            (true, None) => return Err(format!("line {}: a faulty sample has a report", self.line + 1)),
            (false, _) => Kind::Silent,
        };
        if self.changes.is_empty() {
            return Err(format!("line {}: the sample changes nothing", self.line + 1));
        }
        Ok(Sample { heading: self.heading, kind, changes: self.changes, arguments: self.arguments })
    }
}

/// The length of the fence that a line begins with.
fn fence_of(line: &str) -> Option<usize> {
    let length = line.len() - line.trim_start_matches('`').len();
    (length >= 3).then_some(length)
}
