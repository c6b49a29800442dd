//! The rules of the house that the compiler does not know: who may use whom, and what no file may contain.

#![allow(clippy::unwrap_used, clippy::panic)]

use std::fs;
use std::path::{Path, PathBuf};

/// Modules at the top of `src` by floor: each may use its own floor and those below.
///
/// A new module is entered here, which is the moment to decide where it belongs.
const FLOORS: &[&[&str]] = &[
    &[
        "complex",
        "constants",
        "decibel",
        "error",
        "interrupt",
        "lanes",
        "parameter",
        "quadrature",
        "readable",
        "special",
        "table",
        "validity",
    ],
    &["material"],
    &["leak", "wave"],
    SUBJECTS,
    &["enclosure"],
    &["acceptance"],
    &["python"],
];

/// Leak subjects: what two of them need belongs on a floor below.
const SUBJECTS: &[&str] = &["aperture", "cavity", "filter", "interior", "joint", "sheet", "waveguide"];

/// Entries of the top folder; further ones begin with a dot or are listed in `.gitignore`.
const TOP: &[&str] = &[
    "CHANGELOG.md",
    "CITATION.cff",
    "Cargo.lock",
    "Cargo.toml",
    "DEVELOPERS.md",
    "LICENSE-APACHE",
    "LICENSE-MIT",
    "Makefile",
    "README.md",
    "benches",
    "clippy.toml",
    "deny.toml",
    "docs",
    "notebooks-demo",
    "pyproject.toml",
    "python",
    "requirements-dev.txt",
    "rustfmt.toml",
    "src",
    "tests",
];

/// Things left over from work, which no finished file contains. Split, so that this list does not find itself.
const LEFTOVERS: &[&str] = &[
    concat!("TO", "DO"),
    concat!("FIX", "ME"),
    concat!("XX", "X:"),
    concat!("<<<<", "<<<"),
    concat!("/", "tmp/"),
    concat!("/", "work/"),
    concat!("/", "root/"),
    concat!("/", "home/"),
];

fn root() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
}

/// All files below a folder whose name ends in one of the endings, in a stable order.
fn files(folder: &Path, endings: &[&str]) -> Vec<PathBuf> {
    let mut found = Vec::new();
    let Ok(entries) = fs::read_dir(folder) else { return found };
    for path in entries.flatten().map(|entry| entry.path()) {
        let name = path.file_name().unwrap_or_default().to_string_lossy().into_owned();
        if path.is_dir() {
            if !name.starts_with('.') && name != "__pycache__" {
                found.extend(files(&path, endings));
            }
        } else if endings.iter().any(|ending| name.ends_with(ending)) {
            found.push(path);
        }
    }
    found.sort();
    found
}

/// The top-level module that a file of `src` belongs to.
fn module(file: &Path) -> String {
    let inside = file.strip_prefix(root().join("src")).unwrap();
    let first = inside.components().next().unwrap().as_os_str().to_string_lossy().into_owned();
    first.trim_end_matches(".rs").to_owned()
}

fn floor(module: &str) -> Option<usize> {
    FLOORS.iter().position(|floor| floor.contains(&module))
}

/// The code of a file: its lines without comments.
fn code(file: &Path) -> Vec<(usize, String)> {
    let text = fs::read_to_string(file).unwrap();
    let lines = text.lines().enumerate();
    lines.map(|(i, line)| (i + 1, line.split("//").next().unwrap_or_default().to_owned())).collect()
}

/// Top-level modules that a line of code names: `crate::a::..`, `crate::{a, b::c}`, or `stillroom::a` in a test.
fn named_modules(line: &str) -> Vec<String> {
    let mut found = Vec::new();
    for (at, _) in line.match_indices("crate::") {
        let rest = &line[at + "crate::".len()..];
        let paths = match rest.strip_prefix('{') {
            Some(group) => group.trim_end_matches([';', '}', ' ']).split(", ").collect(),
            None => vec![rest],
        };
        for path in paths {
            let name: String = path.chars().take_while(|c| c.is_alphanumeric() || *c == '_').collect();
            found.push(name);
        }
    }
    found
}

fn report(offences: &[String]) {
    assert!(offences.is_empty(), "\n{}\n", offences.join("\n"));
}

#[test]
fn every_module_has_its_floor() {
    let mut offences = Vec::new();
    for entry in fs::read_dir(root().join("src")).unwrap() {
        let name = module(&entry.unwrap().path());
        if name != "lib" && floor(&name).is_none() {
            offences.push(format!("src/{name}: enter it in FLOORS"));
        }
    }
    report(&offences);
}

#[test]
fn no_floor_uses_one_above_and_no_leak_subject_another() {
    let mut offences = Vec::new();
    let mut seen = 0;
    for file in files(&root().join("src"), &[".rs"]) {
        let own = module(&file);
        let Some(own_floor) = floor(&own) else { continue };
        for (number, line) in code(&file) {
            for used in named_modules(&line) {
                let Some(used_floor) = floor(&used) else { continue };
                seen += 1;
                let another_subject =
                    own != used && SUBJECTS.contains(&own.as_str()) && SUBJECTS.contains(&used.as_str());
                if used_floor > own_floor || another_subject {
                    offences.push(format!("{}:{number}: {own} must not use {used}", file.display()));
                }
            }
        }
    }
    assert!(seen > 20, "the search itself is broken: {seen} uses found");
    report(&offences);
}

#[test]
fn only_the_python_floor_knows_python() {
    let mut offences = Vec::new();
    for file in files(&root().join("src"), &[".rs"]) {
        if module(&file) == "python" {
            continue;
        }
        for (number, line) in code(&file) {
            if line.contains("pyo3") || line.contains("numpy") {
                offences.push(format!("{}:{number}: {}", file.display(), line.trim()));
            }
        }
    }
    report(&offences);
}

#[test]
fn no_file_has_leftovers_of_work() {
    let mut offences = Vec::new();
    let mut read = 0;
    let endings = [".rs", ".py", ".pyi", ".md", ".toml", ".ipynb", ".cff", ".txt", "Makefile"];
    let folders = ["src", "tests", "benches", "python", "notebooks-demo", "docs"];
    let inside = folders.iter().flat_map(|folder| files(&root().join(folder), &endings));
    let top = TOP.iter().map(|name| root().join(name)).filter(|path| path.is_file());
    for file in inside.chain(top) {
        let Ok(text) = fs::read_to_string(&file) else { continue };
        read += 1;
        for (number, line) in text.lines().enumerate() {
            for word in LEFTOVERS {
                if line.contains(word) {
                    offences.push(format!("{}:{}: {word}", file.display(), number + 1));
                }
            }
        }
    }
    assert!(read > 20, "the search itself is broken: {read} files read");
    report(&offences);
}

#[test]
fn the_top_folder_holds_what_it_should() {
    let ignored = fs::read_to_string(root().join(".gitignore")).unwrap_or_default();
    let mut offences = Vec::new();
    for entry in fs::read_dir(root()).unwrap() {
        let name = entry.unwrap().file_name().to_string_lossy().into_owned();
        let known = TOP.contains(&name.as_str()) || name.starts_with('.');
        if !known && !ignored.lines().any(|line| line.trim_matches('/') == name) {
            offences.push(format!("{name}: does not belong at the top"));
        }
    }
    report(&offences);
}

#[test]
fn the_search_for_uses_finds_all_forms() {
    assert_eq!(named_modules("use crate::sheet::Laminate;"), ["sheet"]);
    assert_eq!(named_modules("use crate::{filter::Ladder, wave};"), ["filter", "wave"]);
    assert_eq!(named_modules("let x = crate::leak::a(crate::joint::b());"), ["leak", "joint"]);
    assert!(named_modules("use super::x;").is_empty());
}
