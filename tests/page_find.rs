//! The search index, and what a page tells to those who search the web and to players: JSON-LD, chapters, addresses.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "what fails here fails its test")]
mod page_sample;

use page_sample::sample;
use serde_json::Value;

fn index(text: &str) -> Value {
    let json = text.split_once(" = ").unwrap().1.trim_end().trim_end_matches(';');
    serde_json::from_str(json).unwrap()
}

fn how_to(page: &str) -> Value {
    let block = page.split("<script type=\"application/ld+json\">").nth(1).unwrap();
    serde_json::from_str(&block[..block.find("</script>").unwrap()]).unwrap()
}

#[test]
fn the_index_holds_each_word_once_and_a_line_for_everything() {
    let sample = sample();
    let index = index(&sample.page("search-index.js"));
    let words: Vec<&str> = index["words"].as_str().unwrap().split(' ').collect();
    let mut once = words.clone();
    once.sort_unstable();
    once.dedup();
    assert_eq!(once.len(), words.len(), "a word stands twice");
    for word in ["Pinion", "M12", "78", "N·m", "(57.5", "lbf·ft)", "30x42x7", "locker"] {
        assert!(words.contains(&word), "{word}");
    }
    let lines: Vec<&str> = index["lines"].as_str().unwrap().lines().collect();
    let steps: usize = sample.manual.machines.iter().flat_map(|machine| &machine.procedures).map(|procedure| procedure.steps.len()).sum();
    let begins = |letter: char| lines.iter().filter(|line| line.starts_with(letter)).count();
    assert_eq!((begins('0'), begins('1'), begins('2')), (1, 3, steps));
    let fasteners: usize = sample.manual.machines[0].procedures.iter().map(|procedure| procedure.lists.fasteners.len()).sum();
    assert_eq!(begins('a'), fasteners + sample.manual.machines[0].lists.fasteners.len());
}

#[test]
fn every_row_that_the_index_leads_to_is_there() {
    let sample = sample();
    let index = index(&sample.page("search-index.js"));
    for kind in index["kinds"].as_array().unwrap() {
        let page = kind[2].as_str().unwrap();
        assert!(page.is_empty() || sample.page(page).contains("<h1>"), "{page}");
        assert!(!kind[1].as_str().unwrap().contains("found-"), "a kind without a name: {kind}");
    }
}

#[test]
fn a_procedure_is_a_how_to_with_its_steps_tools_and_supplies() {
    // Types and properties: schema.org, HowTo and HowToStep. Durations: ISO 8601-1, 5.5.2.
    let sample = sample();
    let how_to = how_to(&sample.page("tarn-18/pinion.html"));
    let procedure = sample.manual.machines[0].procedure("pinion").unwrap();
    assert_eq!((how_to["@context"].as_str(), how_to["@type"].as_str()), (Some("https://schema.org"), Some("HowTo")));
    assert_eq!(how_to["name"], procedure.title.as_str());
    let steps = how_to["step"].as_array().unwrap();
    assert_eq!(steps.len(), procedure.steps.len());
    for (step, written) in steps.iter().zip(&procedure.steps) {
        assert_eq!((step["@type"].as_str(), step["name"].as_str()), (Some("HowToStep"), Some(written.title.as_str())));
        assert_eq!(step["url"], format!("#{}", written.id));
    }
    let texts = |key: &str| how_to[key].as_array().unwrap().iter().map(|text| text.as_str().unwrap().to_owned()).collect::<Vec<_>>();
    assert!(texts("tool").iter().any(|tool| tool == "Splined shaft holder"), "{how_to}");
    assert!(texts("supply").iter().any(|supply| supply.contains("locker")), "{how_to}");
    assert!(how_to["totalTime"].as_str().unwrap().starts_with("PT"));
}

#[test]
fn an_authors_title_cant_end_the_data_block() {
    let mut sample = sample();
    sample.manual.machines[0].procedures[1].title = "</script><script>alert(1)</script> & \"x\"".to_owned();
    let page = sample.page("tarn-18/pinion.html");
    assert!(!page.contains("<script>alert"));
    assert_eq!(how_to(&page)["name"], "</script><script>alert(1)</script> & \"x\"");
    index(&sample.page("search-index.js"));
}

#[test]
fn chapters_follow_the_moments_of_the_steps() {
    // WebVTT: W3C Candidate Recommendation of 2019, 4.1: a header line, then blocks parted by empty lines, each with
    // an identifier, a line of timings whose end is after its start, and text.
    let text = sample().page("tarn-18/carrier.chapters.vtt");
    let mut blocks = text.trim_end().split("\n\n");
    assert_eq!(blocks.next(), Some("WEBVTT"));
    let mut last = String::new();
    let mut seen = 0;
    for block in blocks {
        let lines: Vec<&str> = block.lines().collect();
        assert_eq!(lines.len(), 3, "{block}");
        let (start, end) = lines[1].split_once(" --> ").unwrap();
        assert!(start < end && start.len() == 12 && end.len() == 12, "{}", lines[1]);
        assert!(start >= last.as_str(), "chapters overlap: {text}");
        end.clone_into(&mut last);
        seen += 1;
    }
    assert!(seen > 0);
    let behind = sample().page("tarn-18/carrier.behind.html");
    assert!(behind.contains("href=\"carrier.chapters.vtt\""), "the file of chapters is linked");
    assert!(sample().page("tarn-18/carrier.html").contains("href=\"carrier.behind.html#page.chapters\""));
    assert!(behind.contains("29:30 "), "the list for a description: {behind}");
}

#[test]
fn addresses_of_the_web_stand_only_where_the_manuals_is_known() {
    let mut sample = sample();
    let files = sample.publish().unwrap();
    assert!(files.iter().all(|file| file.path != "sitemap.xml"));
    assert!(!sample.page("tarn-18/pinion.html").contains("canonical") && !sample.page("index.html").contains("og:"));
    sample.manual.address = Some("https://manual.example/bench/".to_owned());
    let page = sample.page("tarn-18/pinion.html");
    let address = "https://manual.example/bench/tarn-18/pinion.html";
    assert!(page.contains(&format!("<link rel=\"canonical\" href=\"{address}\">")), "{page}");
    for property in ["og:type", "og:title", "og:description", "og:url", "og:site_name"] {
        assert!(page.contains(&format!("<meta property=\"{property}\" content=\"")), "{property}");
    }
    let map = sample.page("sitemap.xml");
    assert!(map.contains("<urlset xmlns=\"http://www.sitemaps.org/schemas/sitemap/0.9\">"));
    assert!(map.contains(&format!("<url><loc>{address}</loc><lastmod>")), "{map}");
    let pages = sample.publish().unwrap();
    let pages = pages.iter().filter(|file| file.path.ends_with(".html") && !file.path.contains("-sheet"));
    // Paper says again what the pages say: it is for printing, not for finding.
    let pages = pages.filter(|file| !file.path.ends_with("book.html") && !file.path.ends_with("torque-card.html") && !file.path.ends_with(".source.html"));
    assert_eq!(map.matches("<loc>").count(), pages.count());
    sample.manual.address = Some("javascript:alert(1)".to_owned());
    assert!(sample.publish().unwrap().iter().all(|file| file.path != "sitemap.xml"));
}

#[test]
fn what_a_person_signs_and_where_a_word_stands_lead_there_and_back() {
    let sample = sample();
    let people = sample.page("tables/people.html");
    assert!(people.contains("id=\"tarn-18.shop.people.second-reader\""), "{people}");
    let page = sample.page("tarn-18/pinion.html");
    assert!(page.contains("href=\"../tables/people.html#tarn-18.shop.people.second-reader\""), "who signs leads to the person");
    assert!(people.contains("href=\"../tarn-18/pinion.html#"), "and the person to what is signed");
    let machine = sample.page("tarn-18/index.html");
    assert!(machine.contains(".behind.html#page.sources"), "a source leads to what rests on it");
}
