//! Mistakes of order and of omission: what comes too late, too early or not at all.

use super::{drop_act, entry_lines, id_of, of_entry};
use crate::demo::{ActAt, Demo, Seed, line_of};

/// The lines of a file in which an act with this verb works on a thing.
fn lines_of(demo: &Demo, file: &str, verb: &str, id: &str) -> Vec<usize> {
    let acts = demo.acts().into_iter().filter(|act| act.file == file && act.verb == verb && id_of(&act.target) == id);
    acts.map(|act| line_of(&demo.files[file], act.start)).collect()
}

/// A mistake: an act leaves its words where it stood, and comes behind another one, further down in its file.
fn moved_behind(demo: &Demo, act: &ActAt, behind: &ActAt) -> Seed {
    let text = &demo.files[&act.file];
    let between = &text[act.end..behind.end];
    let spoilt = format!("{}{}{between} [{}]({}:{}){}", &text[..act.start], act.words, act.words, act.verb, act.target, &text[behind.end..]);
    let at = act.start + act.words.len() + (behind.start - act.end);
    let what = format!("{}:{} moved behind {}:{}", act.verb, act.target, behind.verb, behind.target);
    Seed { file: act.file.clone(), lines: vec![line_of(&spoilt, at)], text: spoilt, what }
}

/// A locker's act names a solvent instead.
pub(super) fn solvent_for_locker(demo: &Demo) -> Vec<Seed> {
    let lockers = demo.acts().into_iter().filter(|act| act.verb == "apply" && act.target.contains("locker@"));
    lockers
        .map(|act| {
            let id = id_of(&act.target);
            let mut seed = demo.replace(&act.file, act.start, act.end, &format!("[{}](apply:degreaser@{id})", act.words), format!("{} is degreaser", act.target));
            seed.lines = lines_of(demo, &act.file, "torque", id);
            seed
        })
        .collect()
}

/// A solvent goes on behind a locker.
pub(super) fn solvent_behind_locker(demo: &Demo) -> Vec<Seed> {
    let lockers = demo.acts().into_iter().filter(|act| act.verb == "apply" && act.target.contains("locker@"));
    lockers
        .map(|act| {
            let id = id_of(&act.target);
            let with = format!("[{}](apply:{}) and [wash them](apply:degreaser@{id})", act.words, act.target);
            let mut seed = demo.replace(&act.file, act.start, act.end, &with, format!("degreaser behind {}", act.target));
            seed.lines = lines_of(demo, &act.file, "torque", id);
            seed
        })
        .collect()
}

/// The tests of kind run or load.
fn runs(demo: &Demo) -> Vec<ActAt> {
    let kind = |act: &ActAt| {
        let folder = act.file.split('/').next().unwrap();
        let mut entries = demo.files.iter().filter(|(file, _)| file.starts_with(folder)).filter_map(|(_, text)| text.split(&format!("\n  {}:", act.target)).nth(1));
        entries.any(|entry| entry.lines().next().is_some_and(|line| line.contains("kind: run,") || line.contains("kind: load,")))
    };
    demo.acts().into_iter().filter(|act| act.verb == "test" && kind(act)).collect()
}

/// A fluid comes behind the run, where both stand in one procedure.
pub(super) fn filled_after_run(demo: &Demo) -> Vec<Seed> {
    let fills: Vec<ActAt> = demo.acts().into_iter().filter(|act| act.verb == "fill").collect();
    let runs = runs(demo);
    fills.iter().flat_map(|fill| runs.iter().filter(|run| run.file == fill.file && run.start > fill.start).map(|run| moved_behind(demo, fill, run))).collect()
}

/// A cover comes off for a run, and goes on behind it.
pub(super) fn uncovered_run(demo: &Demo) -> Vec<Seed> {
    let mut seeds = Vec::new();
    for run in runs(demo) {
        let folder = run.file.split('/').next().unwrap();
        let head = &demo.files[&format!("{folder}/machine.yaml")];
        let covers = head.lines().filter(|line| line.contains("kind: cover,")).filter_map(|line| line.trim().split_once(':'));
        for (cover, _) in covers {
            let with = format!("[Take the cover off](remove:{cover}). [{}](test:{}). [Put the cover on](fit:{cover})", run.words, run.target);
            seeds.push(demo.replace(&run.file, run.start, run.end, &with, format!("{cover} off for {}", run.target)));
        }
    }
    seeds
}

/// A wait for something that is laid in a medium comes behind the next thing that goes in with it.
pub(super) fn soak_after_fit(demo: &Demo) -> Vec<Seed> {
    let acts = demo.acts();
    let mut seeds = Vec::new();
    for wait in acts.iter().filter(|act| act.verb == "wait") {
        let text = &demo.files[&wait.file];
        let Some(entry) = text.split(&format!("\n  {}:", wait.target)).nth(1).and_then(|rest| rest.lines().next()) else { continue };
        let Some(soaked) = entry.split("of: [").nth(1).and_then(|rest| rest.split([',', ']']).next()).filter(|_| entry.contains(", in: ")) else { continue };
        let takes = |act: &&ActAt| id_of(&act.target) == soaked || text.contains(&format!("  {}: ", act.target)) && text.split(&format!("  {}: ", act.target)).nth(1).is_some_and(|rest| rest.lines().next().unwrap().contains(soaked));
        let fits = acts.iter().filter(|act| act.file == wait.file && act.verb == "fit" && act.start > wait.start).find(takes);
        let begins = acts.iter().filter(|act| act.file == wait.file && act.verb == "begin" && act.target == wait.target);
        let Some(fits) = fits else { continue };
        let mut late = moved_behind(demo, wait, fits);
        late.lines = (0..3).map(|more| late.lines[0] + more).collect();
        seeds.push(late);
        seeds.extend(begins.map(|begin| moved_behind(demo, begin, fits)));
    }
    seeds
}

/// A heat with its end, where no other one runs in its time and a bearing goes in.
fn heats(demo: &Demo) -> Vec<(ActAt, ActAt)> {
    let acts = demo.acts();
    let heats = acts.iter().enumerate().filter(|(_, act)| act.verb == "heat");
    heats
        .filter_map(|(at, heat)| {
            let over = acts[at..].iter().position(|act| act.verb == "cool" && act.target == heat.target && act.file == heat.file)? + at;
            let within = &acts[at + 1..over];
            let alone = !within.iter().any(|act| act.verb == "heat") && !acts[..at].iter().any(|act| act.verb == "heat" && act.file == heat.file);
            let tight = |act: &ActAt| of_entry(&demo.files[&act.file], id_of(&act.target), "fit").is_some();
            (alone && within.iter().any(|act| act.verb == "fit" && tight(act))).then(|| (heat.clone(), acts[over].clone()))
        })
        .collect()
}

/// A heat begins only when what needs it is in.
pub(super) fn heat_after_fit(demo: &Demo) -> Vec<Seed> {
    let acts = demo.acts();
    heats(demo)
        .iter()
        .filter_map(|(heat, over)| {
            let last = acts.iter().rfind(|act| act.file == heat.file && act.start < over.start && act.verb != "tool")?;
            let mut seed = moved_behind(demo, heat, last);
            let (from, to) = (line_of(&seed.text, heat.start), seed.lines[0]);
            seed.lines = (from..=to).collect();
            Some(seed)
        })
        .collect()
}

/// A heat is over before what needs it goes in.
pub(super) fn heat_over_early(demo: &Demo) -> Vec<Seed> {
    heats(demo)
        .iter()
        .map(|(heat, over)| {
            let text = &demo.files[&heat.file];
            let early = format!("{} and [{}](cool:{})", &text[heat.start..heat.end], over.words, over.target);
            let spoilt = format!("{}{early}{}{}{}", &text[..heat.start], &text[heat.end..over.start], over.words, &text[over.end..]);
            let (from, to) = (line_of(text, heat.start), line_of(text, over.end));
            Seed { file: heat.file.clone(), lines: (from..=to).collect(), text: spoilt, what: format!("{} over early", heat.target) }
        })
        .collect()
}

/// A live part is not taken off.
pub(super) fn live_left_on(demo: &Demo) -> Vec<Seed> {
    let live = |act: &ActAt| {
        let head = &demo.files[&format!("{}/machine.yaml", act.file.split('/').next().unwrap())];
        head.lines().any(|line| line.trim_start().starts_with(&format!("{}:", act.target)) && line.contains("live: true"))
    };
    let off = demo.acts().into_iter().filter(|act| act.verb == "remove" && live(act));
    // The finding stands where it goes on, in another file.
    off.map(|act| Seed { lines: vec![0], ..drop_act(demo, &act) }).collect()
}

/// What a fastener holds is not put in.
pub(super) fn held_left_out(demo: &Demo) -> Vec<Seed> {
    let holds: Vec<(String, String)> = demo
        .values("holds")
        .into_iter()
        .flat_map(|(file, _, _, value)| value.split(['[', ']', ',', ' ']).filter(|id| !id.is_empty()).map(|id| (file.split('/').next().unwrap().to_owned(), id.to_owned())).collect::<Vec<_>>())
        .collect();
    let fits = demo.acts().into_iter().filter(|act| act.verb == "fit" && holds.iter().any(|(folder, id)| act.file.starts_with(folder.as_str()) && *id == act.target));
    fits.map(|act| {
        // It is missed at its fastener, at the act that took it out, or in its list.
        let mut seed = drop_act(demo, &act);
        let text = &demo.files[&act.file];
        let torques = demo.acts().into_iter().filter(|other| other.file == act.file && matches!(other.verb.as_str(), "torque" | "start" | "remove"));
        seed.lines.extend(torques.map(|other| line_of(text, other.start)));
        seed.lines.extend(entry_lines(demo, &act.target).into_iter().filter(|(file, _)| *file == act.file).map(|(_, line)| line));
        seed
    })
    .collect()
}

/// A right-hand thread is tightened the other way in words.
pub(super) fn tightened_the_wrong_way(demo: &Demo) -> Vec<Seed> {
    let torques = demo.acts().into_iter().filter(|act| act.verb == "torque" && act.words.to_lowercase().starts_with("tighten"));
    torques.map(|act| demo.replace(&act.file, act.start, act.end, &format!("[{}, anticlockwise](torque:{})", act.words, act.target), format!("{} anticlockwise", act.target))).collect()
}
