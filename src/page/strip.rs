//! The build order as a strip: every procedure of a machine, in the order in which they are done.

use super::link;
use super::markup::Markup;
use super::site::Scene;
use serde::Serialize;

/// The strip.
#[derive(Clone, Debug, Default, Serialize)]
pub(super) struct Strip {
    /// Whether it belongs to no one procedure.
    pub whole: bool,
    /// The procedures, printed, an item of a list each: every page of a machine has all of them.
    pub stations: Markup,
    /// The one before the page at hand.
    pub before: Option<Station>,
    /// The one after it.
    pub after: Option<Station>,
}

/// One procedure of the strip.
#[derive(Clone, Debug, Default, Serialize)]
pub(super) struct Station {
    /// Its place in the order, from 1.
    pub number: usize,
    /// Its title.
    pub title: String,
    /// Its page.
    pub href: String,
}

impl Station {
    /// Adds it to the strip, `away` from the page at hand, where there is one.
    fn push_to(&self, strip: &mut Markup, away: Option<usize>) {
        let here = away == Some(0);
        strip.push_tag(match away {
            Some(0) => "<li class=\"here\"><span aria-current=\"page\">",
            Some(1) => "<li><a href=\"",
            _ => "<li class=\"far\"><a href=\"",
        });
        if !here {
            strip.push_text(&self.href);
            strip.push_tag("\">");
        }
        strip.push_tag("<span class=\"balloon\">");
        strip.push_text(&self.number.to_string());
        strip.push_tag("</span><span>");
        strip.push_text(&self.title);
        strip.push_tag(if here { "</span></span></li>\n" } else { "</span></a></li>\n" });
    }
}

impl Scene<'_> {
    /// The build order of the machine, the procedure at `here` marked.
    pub(super) fn strip(&self, here: Option<usize>) -> Strip {
        let mut all: Vec<Station> = self
            .machine
            .procedures
            .iter()
            .enumerate()
            .map(|(index, procedure)| Station {
                number: index + 1,
                title: procedure.title.clone(),
                href: self.link(&link::procedure_path(&self.machine.id, &procedure.id)),
            })
            .collect();
        let mut stations = Markup::default();
        for (index, station) in all.iter().enumerate() {
            station.push_to(&mut stations, here.map(|here| here.abs_diff(index)));
        }
        let mut take = |index: Option<usize>| index.and_then(|index| all.get_mut(index)).map(std::mem::take);
        Strip {
            whole: here.is_none(),
            before: take(here.and_then(|index| index.checked_sub(1))),
            after: take(here.map(|index| index + 1)),
            stations,
        }
    }
}
