//! Mistakes in the work: acts left out, moved, put in.

use super::{drop_act, entry_lines, id_of, of_entry};
use crate::demo::{ActAt, Demo, Seed, line_of};

pub(super) fn tightening_dropped(demo: &Demo) -> Vec<Seed> {
    let acts = demo.acts();
    let torques: Vec<&ActAt> = acts.iter().filter(|act| act.verb == "torque" && !act.target.contains('/')).collect();
    torques
        .iter()
        .map(|act| {
            // The finding may stand at the last act that is left to the fastener.
            let mut seed = drop_act(demo, act);
            let id = id_of(&act.target);
            let others = acts.iter().filter(|other| other.file == act.file && id_of(&other.target) == id);
            seed.lines.extend(others.map(|other| line_of(&demo.files[&other.file], other.start)));
            seed.lines.extend(entry_lines(demo, id).into_iter().filter(|(file, _)| *file == act.file).map(|(_, line)| line));
            seed
        })
        .collect()
}

pub(super) fn heat_after_seal(demo: &Demo) -> Vec<Seed> {
    let acts = demo.acts();
    let mut seeds = Vec::new();
    for heat in acts.iter().filter(|act| act.verb == "heat") {
        let text = &demo.files[&heat.file];
        let Some(part) = of_entry(text, &heat.target, "of") else { continue };
        for seal in acts.iter().filter(|act| act.file == heat.file && act.verb == "fit" && act.start > heat.start) {
            let inside = of_entry(text, id_of(&seal.target), "in").is_some_and(|within| within == part);
            let is_seal = text.find("\nseals:").is_some_and(|from| {
                let end = text[from + 1..].find("\n---").map_or(text.len(), |e| from + 1 + e);
                text[from..end].contains(&format!("  {}:", id_of(&seal.target)))
            });
            let (Some(hot), Some(cold)) = (demo.step_at(&heat.file, heat.start), demo.step_at(&seal.file, seal.start)) else { continue };
            if inside && is_seal && hot != cold {
                let moved = format!("{}{}{}{}", &text[..hot.0], &text[hot.1..cold.1], format_step(&text[hot.0..hot.1]), &text[cold.1..]);
                let at = moved.find(&format!("](heat:{})", heat.target)).unwrap();
                seeds.push(Seed {
                    file: heat.file.clone(),
                    lines: vec![line_of(&moved, at)],
                    text: moved,
                    what: format!("{} moved behind {}", heat.target, seal.target),
                });
            }
        }
    }
    seeds
}

/// The act of a key and the next one that fits something, each in the other's place.
pub(super) fn key_behind(demo: &Demo) -> Vec<Seed> {
    let acts = demo.acts();
    let keys = acts.iter().enumerate().filter(|(_, act)| act.verb == "fit" && act.target.ends_with("-key"));
    keys.filter_map(|(at, key)| {
        let part = acts[at + 1..].iter().find(|act| act.verb == "fit" && act.file == key.file)?;
        let text = &demo.files[&key.file];
        let before = format!("{}{}", &text[..key.start], &text[part.start..part.end]);
        let line = line_of(text, key.start);
        let moved = format!("{before}{}{}{}", &text[key.end..part.start], &text[key.start..key.end], &text[part.end..]);
        Some(Seed { file: key.file.clone(), lines: vec![line], text: moved, what: format!("{} behind {}", key.target, part.target) })
    })
    .collect()
}

fn format_step(step: &str) -> String {
    format!("\n{}\n", step.trim_end())
}

pub(super) fn closer_deleted(demo: &Demo) -> Vec<Seed> {
    let mut seeds = Vec::new();
    for (file, start, _, target) in demo.values("finish_in") {
        let folder = file.split('/').next().unwrap();
        let Some((procedure, step)) = target.split_once('#') else { continue };
        let closing = format!("{folder}/{procedure}.md");
        let Some(text) = demo.files.get(&closing) else { continue };
        let Some(heading) = text.find(&format!("{{#{step}")) else { continue };
        let Some(span) = demo.step_at(&closing, heading) else { continue };
        let opener = &demo.files[&file][..start];
        let item = opener.rfind("{").map(|at| opener[..at].trim_end_matches([':', ' ']).rsplit([' ', '\n']).next().unwrap_or("").to_owned()).unwrap_or_default();
        let thing = opener[opener.rfind('{').unwrap_or(0)..].split("of: ").nth(1).map_or(item.clone(), |rest| rest.split([',', '}']).next().unwrap_or("").to_owned());
        for act in demo.acts().into_iter().filter(|act| act.file == closing && (span.0..span.1).contains(&act.start)) {
            let closes = matches!(act.verb.as_str(), "fit" | "torque" | "measure" | "align" | "test") && id_of(&act.target) == thing;
            if closes {
                let mut seed = drop_act(demo, &act);
                // The finding stands at the item's finish_in, in the file that opens it.
                seed.what = format!("{} ({file}:{})", seed.what, line_of(&demo.files[&file], start));
                seed.lines.clear();
                seed.lines.push(0);
                seeds.push(seed);
            }
        }
    }
    seeds
}

pub(super) fn holder_removed(demo: &Demo) -> Vec<Seed> {
    let mut seeds = Vec::new();
    let holders: Vec<(String, usize, usize, String)> = demo.values("hold_with");
    for (file, start, end, value) in &holders {
        let text = &demo.files[file];
        let line_start = text[..*start].rfind('\n').map_or(0, |at| at + 1);
        if text[line_start..*start].trim() == "hold_with:" {
            let mut seed = demo.replace(file, line_start, end + 1, "", format!("hold_with: {value} taken out"));
            let entry = text[..line_start].rfind("\n  ").map(|_| text[..line_start].lines().enumerate().filter(|(_, l)| l.starts_with("  ") && !l.starts_with("   ")).last().map_or(0, |(n, _)| n + 1));
            seed.lines.extend(entry);
            seeds.push(seed);
        }
    }
    for act in demo.acts().into_iter().filter(|act| act.verb == "tool" && holders.iter().any(|(file, _, _, value)| *file == act.file && *value == act.target)) {
        // Where the tool is in use since an earlier step, one mention less changes nothing.
        let first = demo.acts().into_iter().find(|other| other.file == act.file && other.verb == "tool" && other.target == act.target);
        if first.is_some_and(|first| first.start == act.start) {
            let mut seed = drop_act(demo, &act);
            let span = demo.step_at(&act.file, act.start).unwrap();
            let text = &demo.files[&act.file];
            seed.lines.extend(line_of(text, span.0)..=line_of(text, span.1 - 1));
            seeds.push(seed);
        }
    }
    seeds
}

pub(super) fn refitted(demo: &Demo) -> Vec<Seed> {
    let acts = demo.acts();
    let mut seeds = Vec::new();
    for act in acts.iter().filter(|act| act.verb == "fit" && !act.target.contains('*')) {
        let once = demo.files.values().any(|text| {
            of_entry(text, &act.target, "reuse").is_some_and(|reuse| reuse == "never")
                && of_entry(text, &act.target, "spare").is_none()
                && of_entry(text, &act.target, "new").is_none()
        });
        if once {
            let with = format!("[{}](fit:{}), [out again](remove:{}), [in again](fit:{})", act.words, act.target, act.target, act.target);
            seeds.push(demo.replace(&act.file, act.start, act.end, &with, format!("{} fitted, taken out and fitted", act.target)));
        }
    }
    seeds
}

/// Sends a part away in a step of its own before its first fitting, in a file where it is fitted for good.
pub(super) fn away(demo: &Demo) -> Vec<Seed> {
    let mut seeds = Vec::new();
    for act in demo.acts().into_iter().filter(|act| act.verb == "fit") {
        let id = id_of(&act.target).to_owned();
        let text = &demo.files[&act.file];
        let is_part = demo.files.iter().any(|(file, text)| {
            file.split('/').next() == act.file.split('/').next() && text.find("\nparts:").is_some_and(|at| text[at..].contains(&format!("\n  {id}:")))
        });
        let Some((step, _)) = demo.step_at(&act.file, act.start) else { continue };
        if !is_part || text.contains("\naway:") {
            continue;
        }
        let id_of_step = text[step..].split("{#").nth(1).and_then(|rest| rest.split([' ', '}']).next()).unwrap_or_default();
        let procedure = act.file.split('/').nth(1).unwrap().trim_end_matches(".md");
        let head_end = text[3..].find("\n---").unwrap() + 4;
        let entry = format!("away: {{{id}: {{because: plating, finish_in: {procedure}#{id_of_step}}}}}\n");
        let first_step = demo.steps(&act.file)[0].0;
        let heading_end = text[first_step..].find('\n').unwrap() + first_step + 1;
        let sent = format!("\n[Send it to the plater](send:{id}).\n");
        let spoilt = format!("{}{entry}{}{sent}{}", &text[..head_end], &text[head_end..heading_end], &text[heading_end..]);
        let at = act.start + entry.len() + sent.len();
        seeds.push(Seed { file: act.file.clone(), lines: vec![line_of(&spoilt, at)], text: spoilt, what: format!("{id} sent away before it is fitted") });
    }
    seeds
}

pub(super) fn locker_before_stop(demo: &Demo) -> Vec<Seed> {
    let mut seeds = Vec::new();
    for act in demo.acts().into_iter().filter(|act| act.verb == "apply" && act.target.contains("locker@")) {
        let with = format!("[{}]({}:{}). [Enough for today](stop:). Then go on,", act.words, act.verb, act.target);
        seeds.push(demo.replace(&act.file, act.start, act.end, &with, format!("a stop behind {}", act.target)));
    }
    seeds
}

pub(super) fn covered_early(demo: &Demo) -> Vec<Seed> {
    let mut seeds = Vec::new();
    for (file, start, end, value) in demo.values("covers") {
        let inner = value.trim_start_matches('[').trim_end_matches(']');
        for covered in inner.split(", ") {
            let text = &demo.files[&file];
            let cover = text[..start].rfind("\n  ").map(|at| text[at + 3..].split(':').next().unwrap_or("").to_owned()).unwrap_or_default();
            let folder = file.split('/').next().unwrap();
            let acts = demo.acts();
            let fits = acts.iter().find(|act| act.file.starts_with(folder) && act.verb == "fit" && id_of(&act.target) == cover);
            let done = acts.iter().rfind(|act| act.file.starts_with(folder) && matches!(act.verb.as_str(), "torque" | "measure" | "align") && id_of(&act.target) == covered);
            let (Some(fits), Some(done)) = (fits, done) else { continue };
            if fits.file == done.file && done.start < fits.start {
                // The finishing act goes behind the cover.
                let text = &demo.files[&fits.file];
                let spoilt = format!(
                    "{}{}{}{} [{}]({}:{}){}",
                    &text[..done.start],
                    done.words,
                    &text[done.end..fits.start],
                    &text[fits.start..fits.end],
                    done.words,
                    done.verb,
                    done.target,
                    &text[fits.end..]
                );
                let at = spoilt.find(&format!("](fit:{cover})")).unwrap();
                seeds.push(Seed { file: fits.file.clone(), lines: vec![line_of(&spoilt, at)], text: spoilt, what: format!("{covered} finished behind {cover}") });
            }
        }
        let _ = end;
    }
    seeds
}

pub(super) fn cure_skipped(demo: &Demo) -> Vec<Seed> {
    let acts = demo.acts();
    let mut seeds = Vec::new();
    for wait in acts.iter().filter(|act| act.verb == "wait") {
        let text = &demo.files[&wait.file];
        let of = text.find(&format!("\n  {}:", wait.target)).map(|at| text[at..].split("of: [").nth(1).unwrap_or("").split(']').next().unwrap_or("").to_owned());
        let beads = of.as_deref().unwrap_or("").split(", ").any(|id| text.find("\nbeads:").is_some_and(|at| text[at..].contains(&format!("  {id}:"))));
        let fluid = acts.iter().find(|act| act.file == wait.file && act.verb == "fill" && act.start > wait.start);
        if let (true, Some(fluid)) = (beads, fluid) {
            let mut seed = drop_act(demo, wait);
            seed.lines.push(line_of(text, fluid.start));
            seeds.push(seed);
        }
    }
    seeds
}
