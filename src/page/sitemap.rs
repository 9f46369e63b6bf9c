//! The list of pages for those who search the web, by the sitemaps.org protocol 0.9: only where the manual's address is known.

use super::error::PageError;
use super::link;
use super::moment::is_web;
use super::shared::{self, Shared};
use super::site::Site;
use super::sources::date_text;
use super::tables;
use super::behind;
use crate::manual::{Machine, Manual};

/// Where the list lies in the site.
const PATH: &str = "sitemap.xml";
/// The list.
pub(super) static SITEMAP: Shared = Shared { path: PATH, part, page };

/// A page, and the day of its last change where that is known.
type Listed = (String, Option<String>);

/// The protocol's limit of addresses in one list.
const MOST: usize = 50_000;

/// The address of a file of the site. None where the manual's address is not known or is not one on the web.
pub(super) fn address(manual: &Manual, path: &str) -> Option<String> {
    let base = manual.address.as_deref().filter(|address| is_web(address))?;
    Some(format!("{}/{}", base.trim_end_matches('/'), link::relative("", path)))
}

/// The list; bench sheets and sources are left out, the procedures lead to them, and records, which are about one machine of someone's. A proof copy is nothing to be found.
fn page(site: &Site<'_>, parts: &[&str]) -> Result<Option<Vec<u8>>, PageError> {
    let manual = site.input.manual;
    if site.input.proof_copy || address(manual, "").is_none() {
        return Ok(None);
    }
    let parts = parts.iter().map(|part| shared::read(part)).collect::<Result<Vec<Vec<Listed>>, _>>()?;
    let mut pages: Vec<Listed> = vec![(link::HOME.to_owned(), None)];
    pages.extend(parts.into_iter().flatten());
    pages.extend(tables::Kind::ALL.iter().map(|kind| (kind.path().to_owned(), None)));
    let mut text = String::from("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<urlset xmlns=\"http://www.sitemaps.org/schemas/sitemap/0.9\">\n");
    for (path, date) in pages.iter().take(MOST) {
        let loc = escaped(&address(manual, path).unwrap_or_default());
        let date = date.as_ref().map(|date| format!("<lastmod>{date}</lastmod>")).unwrap_or_default();
        text.push_str(&format!("<url><loc>{loc}</loc>{date}</url>\n"));
    }
    text.push_str("</urlset>\n");
    Ok(Some(text.into_bytes()))
}

/// The pages of a machine.
fn part(site: &Site<'_>, machine_index: usize) -> Result<String, PageError> {
    let Some(machine) = site.input.manual.machines.get(machine_index) else { return shared::written::<Vec<Listed>>(&Vec::new()) };
    let mut pages: Vec<Listed> = of_machine(machine).into_iter().map(|path| (path, machine.history.date.as_ref().map(date_text))).collect();
    for procedure in &machine.procedures {
        let date = procedure.history.date.as_ref().map(date_text);
        pages.push((link::procedure_path(&machine.id, &procedure.id), date.clone()));
        pages.extend(behind::has(procedure).then(|| (link::behind_path(&machine.id, &procedure.id), date)));
    }
    shared::written(&pages)
}

/// The machine's own pages: itself, its review, its bulletins, its variants side by side.
fn of_machine(machine: &Machine) -> Vec<String> {
    let mut pages = vec![link::machine_path(&machine.id), link::review_path(&machine.id), link::bulletins_path(&machine.id)];
    pages.extend((!machine.axes.is_empty()).then(|| link::matrix_path(&machine.id)));
    pages
}

fn escaped(text: &str) -> String {
    super::markup::Markup::text(text).as_str().to_owned()
}
