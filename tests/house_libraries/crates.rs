//! What the program is built from, as cargo tells it: every package, on whatever system, and which needs which.

use serde_json::Value;
use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

/// A package of somebody else.
pub(crate) struct Package {
    pub(crate) name: String,
    pub(crate) version: String,
    /// Its licence as an SPDX expression, or in the older spelling with a stroke for OR.
    pub(crate) licence: String,
    folder: PathBuf,
    /// What it needs to be built and to run; its tests apart.
    needs: Vec<String>,
}

/// All packages by cargo's own names for them.
pub(crate) struct Crates {
    pub(crate) packages: BTreeMap<String, Package>,
    /// What Benchleaf's manifest names for the program.
    pub(crate) direct: BTreeSet<String>,
    /// What it names for tests alone.
    pub(crate) for_tests: BTreeSet<String>,
}

impl Crates {
    /// Asks cargo, which fetches what is not on this machine yet, such as the packages of other systems.
    pub(crate) fn told() -> Self {
        let run = Command::new(env!("CARGO"))
            .args(["metadata", "--format-version", "1", "--locked"])
            .current_dir(env!("CARGO_MANIFEST_DIR"))
            .output()
            .unwrap();
        assert!(run.status.success(), "{}", String::from_utf8_lossy(&run.stderr));
        let told: Value = serde_json::from_slice(&run.stdout).unwrap();
        let root = word(&told["resolve"]["root"]);
        let nodes: BTreeMap<String, &Value> = array(&told["resolve"]["nodes"]).map(|node| (word(&node["id"]), node)).collect();
        let of_kind = |id: &str, wanted: &dyn Fn(Option<&str>) -> bool| -> BTreeSet<String> {
            let needs = array(&nodes[id]["deps"]).filter(|need| array(&need["dep_kinds"]).any(|kind| wanted(kind["kind"].as_str())));
            needs.map(|need| word(&need["pkg"])).collect()
        };
        let direct = of_kind(&root, &|kind| kind.is_none());
        let for_tests = of_kind(&root, &|kind| kind == Some("dev"));
        let packages = array(&told["packages"]).filter(|package| word(&package["id"]) != root).map(|package| {
            let id = word(&package["id"]);
            let manifest = PathBuf::from(word(&package["manifest_path"]));
            let needs = of_kind(&id, &|kind| kind != Some("dev")).into_iter().collect();
            let package = Package {
                name: word(&package["name"]),
                version: word(&package["version"]),
                licence: package["license"].as_str().unwrap_or("none told").to_owned(),
                folder: manifest.parent().unwrap().to_path_buf(),
                needs,
            };
            (id, package)
        });
        Self { packages: packages.collect(), direct, for_tests }
    }

    /// A package and all that it needs.
    pub(crate) fn with_needs<'a>(&self, of: impl IntoIterator<Item = &'a String>) -> BTreeSet<String> {
        let mut all = BTreeSet::new();
        let mut waiting: Vec<String> = of.into_iter().cloned().collect();
        while let Some(id) = waiting.pop() {
            waiting.extend(self.packages[&id].needs.iter().filter(|need| !all.contains(*need)).cloned());
            all.insert(id);
        }
        all
    }

    /// What whoever passes on a built program passes on, by name.
    pub(crate) fn passed_on(&self) -> Vec<&Package> {
        let mut all: Vec<&Package> = self.with_needs(&self.direct).iter().map(|id| &self.packages[id]).collect();
        all.sort_by(|one, other| (&one.name, &one.version).cmp(&(&other.name, &other.version)));
        all
    }
}

impl Package {
    /// Who holds the rights, as its licence says; where that names nobody, as the head of its source does.
    pub(crate) fn holders(&self) -> BTreeSet<String> {
        let names = ["licen", "copying"];
        let files = fs::read_dir(&self.folder).unwrap().map(|entry| entry.unwrap().path());
        let mut files: Vec<PathBuf> = files.filter(|path| path.is_file() && names.iter().any(|name| lower_name(path).starts_with(name))).collect();
        files.sort();
        let told: BTreeSet<String> = files.iter().flat_map(|path| lines_of_rights(path)).collect();
        if told.is_empty() { lines_of_rights(&self.folder.join("src/lib.rs")) } else { told }
    }
}

fn lower_name(path: &Path) -> String {
    path.file_name().unwrap().to_string_lossy().to_lowercase()
}

/// The lines that begin with a claim, such as `Copyright (c) 2020 Somebody`, without marks of comments.
fn lines_of_rights(path: &Path) -> BTreeSet<String> {
    let text = String::from_utf8_lossy(&fs::read(path).unwrap_or_default()).into_owned();
    let lines = text.lines().map(|line| line.trim_matches([' ', '*', '/', '-', '\t']));
    let claims = |line: &&str| {
        let behind = line.strip_prefix("Copyright ").unwrap_or_default();
        ["(c)", "(C)", "©", "1", "2"].iter().any(|start| behind.starts_with(start))
    };
    lines.filter(claims).map(|line| line.split_whitespace().collect::<Vec<_>>().join(" ")).collect()
}

fn word(value: &Value) -> String {
    value.as_str().unwrap().to_owned()
}

fn array(value: &Value) -> impl Iterator<Item = &Value> {
    value.as_array().into_iter().flatten()
}
