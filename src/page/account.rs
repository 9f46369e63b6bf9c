//! What stands behind each torque of a procedure: source, threads, preload, share of the proof load, wrench and setting,
//! what else uses it. The words are plausible, consistent, sourced; never correct.

use super::link;
use super::names::Detail;
use super::rows::Cell;
use super::site::Scene;
use super::values::{Line, cases, quantity_line, quantity_text, variant_label};
use super::words::Arg;
use crate::inspect::{Screening, TorqueAccount, torque_accounts};
use crate::trade::screening::Standing;
use crate::manual::{Entry, Fastener, ListKind, Setting, ThingRef, Verb};
use serde::Serialize;

/// The account of one fastener's torque.
#[derive(Serialize)]
pub(super) struct AccountView {
    anchor: String,
    name: Detail,
    rows: Vec<AccountRow>,
}

#[derive(Serialize)]
struct AccountRow {
    label: String,
    cell: Cell,
}

impl<'s> Scene<'s> {
    /// The accounts of everything that is tightened in the procedure, in the order of work.
    pub(super) fn accounts(&self) -> Vec<AccountView> {
        let mut seen: Vec<&ThingRef> = Vec::new();
        let steps = self.procedure.map_or(&[][..], |procedure| procedure.steps.as_slice());
        for act in steps.iter().flat_map(|step| &step.acts).filter(|act| act.verb == Some(Verb::Torque)) {
            for thing in act.things.iter().filter(|thing| thing.kind == ListKind::Fasteners) {
                if !seen.contains(&thing) {
                    seen.push(thing);
                }
            }
        }
        seen.into_iter().filter_map(|thing| self.account(thing)).collect()
    }

    /// The link from a torque to its account.
    pub(super) fn account_link(&self, thing: &ThingRef) -> Detail {
        let page = self.procedure.map(|procedure| link::behind_path(&self.machine.id, &procedure.id));
        Detail { text: self.site.say("account-link"), href: page.map(|page| self.link(&format!("{page}#{}", account_anchor(thing)))) }
    }

    /// What to set on a wrench that an adapter lengthens, with the wrench.
    pub(super) fn setting_lines(&self, fastener: &'s Entry<Fastener>) -> Vec<Line> {
        let accounts = torque_accounts(self.scope(), fastener, self.known);
        let several = accounts.len() > 1;
        let set = accounts.iter().flat_map(|account| {
            let label = several.then(|| variant_label(&account.case.when, self.known));
            account.settings.iter().filter(|setting| setting.corrected).filter_map(move |setting| Some((label.clone(), setting.shown()?)))
        });
        set.map(|(label, quantity)| quantity_line(&quantity, self.units()).labelled(Some(&self.site.say("set-on-wrench"))).labelled(label.as_deref())).collect()
    }

    fn account(&self, thing: &ThingRef) -> Option<AccountView> {
        let entry = self.scope().thing(|l| &l.fasteners, thing)?;
        let known = self.known.and(&entry.only)?;
        let scene = Scene { known: &known, ..*self };
        let accounts = torque_accounts(scene.scope(), entry, &known);
        let mut rows = Vec::new();
        let mut row = |key: &str, cell: Cell| {
            if !cell.is_empty() {
                rows.push(AccountRow { label: self.site.say(key), cell });
            }
        };
        row("account-torque", Cell { lines: scene.torque_lines(&entry.what, None), ..Cell::default() });
        row("account-source", scene.source_or_unsourced(entry, thing));
        let mut threads = scene.each(&accounts, |scene, account| account.screening.as_ref().map(|s| scene.condition_words(s)));
        threads.details.extend(cases(&entry.what.locker, &known).map(|(_, id)| scene.detail_in(ListKind::Materials, id)));
        row("account-threads", threads);
        row("account-preload", scene.each(&accounts, |scene, account| account.screening.as_ref().map(|s| scene.preload_words(s))));
        row("account-share", scene.each(&accounts, |scene, account| account.screening.as_ref().map(|s| scene.share_words(s))));
        row("account-wrench", scene.wrench_cell(&accounts));
        row("account-used", self.used_in(thing));
        row("account-waived", Cell::details(self.waiver_details(thing)));
        Some(AccountView { anchor: account_anchor(thing), name: Detail { text: entry.name.clone(), href: Some(self.row_link(thing)) }, rows })
    }

    fn source_or_unsourced(&self, entry: &Entry<Fastener>, thing: &ThingRef) -> Cell {
        let mut cell = if self.is_unsourced(thing) { Cell::text(self.site.say("unsourced")) } else { self.source_cell(&entry.source) };
        cell.details.extend(self.claim_details(thing));
        cell
    }

    /// A line of words for each account, labelled where the torque varies; said once where all say the same.
    fn each(&self, accounts: &[TorqueAccount<'_>], words: impl Fn(&Self, &TorqueAccount<'_>) -> Option<String>) -> Cell {
        let said: Vec<(String, String)> = accounts
            .iter()
            .filter_map(|account| Some((variant_label(&account.case.when, self.known), words(self, account)?)))
            .collect();
        match said.as_slice() {
            [(_, first), rest @ ..] if rest.iter().all(|(_, other)| other == first) => Cell::text(first.clone()),
            _ => Cell::details(said.into_iter().map(|(label, words)| Detail::plain(format!("{label} {words}").trim_start())).collect()),
        }
    }

    fn condition_words(&self, screening: &Screening<'_>) -> String {
        let condition = self.site.words.of("threads", screening.condition.word());
        if screening.condition_assumed { self.say("account-threads-assumed", &[("condition", Arg::Text(&condition))]) } else { condition }
    }

    fn preload_words(&self, screening: &Screening<'_>) -> String {
        let kilonewtons = |newtons: f64| format!("{:.1}", newtons / 1000.0);
        let factor = screening.joint.nut_factor;
        // A number without a unit: nothing later tells that it is a value.
        let bare = |factor: f64| format!("{factor:.2}").replace('.', &self.site.words.decimal_mark().to_string());
        self.say(
            "account-preload-value",
            &[
                ("mid", Arg::Text(&kilonewtons(screening.preload_n.mid))),
                ("low", Arg::Text(&kilonewtons(screening.preload_n.low))),
                ("high", Arg::Text(&kilonewtons(screening.preload_n.high))),
                ("rough", Arg::Text(&bare(factor.high))),
                ("slippery", Arg::Text(&bare(factor.low))),
            ],
        )
    }

    fn share_words(&self, screening: &Screening<'_>) -> String {
        let percent = |share: f64| format!("{:.0}", share * 100.0);
        let class = if screening.class_assumed { "account-class-assumed" } else { "class" };
        let class = self.say(class, &[("class", Arg::Text(screening.class))]);
        let share = self.say(
            "account-share-value",
            &[
                ("mid", Arg::Text(&percent(screening.share.mid))),
                ("low", Arg::Text(&percent(screening.share.low))),
                ("high", Arg::Text(&percent(screening.share.high))),
                ("class", Arg::Text(&class)),
            ],
        );
        format!("{share}; {}", self.standing_words(screening))
    }

    fn standing_words(&self, screening: &Screening<'_>) -> String {
        let role = self.site.words.of("role", screening.joint.role.word());
        let (Some(standing), Some(band)) = (screening.standing, screening.joint.role.band()) else {
            return self.say("account-not-screened", &[("role", Arg::Text(&role))]);
        };
        let key = match standing {
            Standing::Inside => "account-plausible",
            Standing::Below => "account-below",
            Standing::Above => "account-above",
            Standing::OverProof => "account-over-proof",
        };
        let (low, high) = (format!("{:.0}", band.low * 100.0), format!("{:.0}", band.high * 100.0));
        self.say(key, &[("role", Arg::Text(&role)), ("low", Arg::Text(&low)), ("high", Arg::Text(&high))])
    }

    fn wrench_cell(&self, accounts: &[TorqueAccount<'_>]) -> Cell {
        let mut details: Vec<Detail> = Vec::new();
        for account in accounts {
            let label = variant_label(&account.case.when, self.known);
            let label = if accounts.len() > 1 { label } else { String::new() };
            for setting in &account.settings {
                let mut detail = self.detail_in(ListKind::Tools, &setting.tool.id);
                let set = self.setting_words(setting, account.case.value.stages().len() > 1);
                detail.text = format!("{label} {}: {set}", detail.text).trim_start().to_owned();
                details.push(detail);
            }
        }
        Cell::details(details)
    }

    fn setting_words(&self, setting: &Setting<'_>, staged: bool) -> String {
        let shown = setting.shown().map_or_else(|| setting.torque.written().to_owned(), |quantity| quantity_text(&quantity, self.units()));
        let deviation = figure(setting.deviation * 100.0);
        let key = if setting.corrected { "account-set-corrected" } else { "account-set" };
        let words = self.say(key, &[("value", Arg::Text(&shown)), ("deviation", Arg::Text(&deviation))]);
        if staged {
            let stage = self.say("stage", &[("number", Arg::Count(super::rows::count(setting.stage)))]);
            return format!("{stage} {words}");
        }
        words
    }
}

fn account_anchor(thing: &ThingRef) -> String {
    format!("behind.{}", link::anchor_part(&thing.id))
}

/// Two or three figures.
fn figure(value: f64) -> String {
    let decimals = usize::from(value < 100.0 && (value - value.round()).abs() > 1e-9);
    format!("{value:.decimals$}")
}
