//! The start of a manual: `manual.yaml` and `shop.yaml`.

use super::DraftFile;
use super::yaml::{hole, quoted};
use crate::manual::Date;

/// What is known of a manual that is begun.
#[derive(Clone, Debug)]
pub struct ManualStart<'a> {
    /// Its title.
    pub title: &'a str,
    /// Who answers for the values, where it is known.
    pub publisher: Option<&'a str>,
    /// The day.
    pub today: Date,
}

/// The two files of a manual.
#[must_use]
pub fn manual_draft(start: &ManualStart<'_>) -> Vec<DraftFile> {
    let publisher = start.publisher.map_or_else(|| hole(""), quoted);
    let manual = format!(
        "title: {}\n\
         publisher: {publisher:<20} # who answers for the values: a club, a workshop, a name\n\
         language: en                    # BCP 47: en, en-GB, de, …\n\
         # notice: …                     # printed on every page and sheet, after the standing caution\n\
         paper: A4                       # or Letter\n\
         # units: {{torque: [N·m, lbf·ft], length: [mm, in]}}   # shown beside the author's own\n\
         # address: https://…            # where it will be published\n\
         profile: working                # errors stop; later club: warnings too; or published: and every value has a source\n",
        quoted(start.title)
    );
    let shop = format!(
        "# What every machine shares: tools, materials, sources, people, words. Take the # off the keys you need.\n\
         revision: 1\n\
         date: {}\n\
         # tools:                        # from … to … and the smallest division, as the scale of your own wrench has it\n\
         #   small-wrench: {{name: …, kind: torque-wrench, range: …, scale: …, step: …}}\n\
         # materials:                    # a locker by its strength (low, medium, high), never by a colour\n\
         #   locker: {{name: …, kind: thread-locker, strength: …, cure: …, source: …}}\n\
         # sources:                      # kind: maker, kit, vendor, measured, size-table, practice or heard\n\
         #   service-book: {{title: …, kind: maker, edition: …, page: …, date: …}}\n\
         # people:                       # who signs hold points and reads values a second time: roles are enough\n\
         #   second-reader: {{name: …}}\n\
         # terms:                        # one name a part, and the names not to use for it\n\
         #   carrier: {{name: …, means: …, not: […]}}\n",
        start.today
    );
    vec![DraftFile { path: "manual.yaml".to_owned(), text: manual }, DraftFile { path: "shop.yaml".to_owned(), text: shop }]
}
