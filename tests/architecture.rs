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
        "object",
        "parameter",
        "readable",
        "serial",
        "special",
        "table",
        "validity",
    ],
    &["material"],
    &["circuit", "leak", "mouth", "probe", "wave"],
    SUBJECTS,
    &["enclosure"],
    &["python"],
];

/// Leak subjects: what two of them need belongs on a floor below.
const SUBJECTS: &[&str] = &["aperture", "cavity", "filter", "joint", "sheet", "waveguide"];

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

/// Top-level modules that code names, and at which line: `crate::a::..`, and groups as `crate::{a, b::{c, d}}` over any
/// number of lines.
fn named_modules(code: &[(usize, String)]) -> Vec<(usize, String)> {
    let mut text = String::new();
    // Where each line begins in it.
    let mut starts = Vec::new();
    for (number, line) in code {
        starts.push((text.len(), *number));
        text.push_str(line);
        text.push('\n');
    }
    let line_of = |at: usize| starts[starts.partition_point(|(start, _)| *start <= at) - 1].1;
    let name = |text: &str| text.chars().take_while(|c| c.is_alphanumeric() || *c == '_').collect::<String>();
    let mut found = Vec::new();
    for (at, root) in text.match_indices("crate::") {
        let begin = at + root.len();
        if !text[begin..].starts_with('{') {
            found.push((line_of(at), name(&text[begin..])));
            continue;
        }
        let (mut depth, mut is_new) = (0, false);
        for (place, character) in text[begin..].char_indices() {
            match character {
                '{' => depth += 1,
                '}' => depth -= 1,
                _ => {}
            }
            if depth == 0 {
                break;
            }
            if depth == 1 && (character == '{' || character == ',') {
                is_new = true;
            } else if is_new && !character.is_whitespace() {
                is_new = false;
                found.push((line_of(begin + place), name(&text[begin + place..])));
            }
        }
    }
    found
}

/// Every use of one top-level module by another: file and line, user, used.
fn uses() -> Vec<(String, String, String)> {
    let mut found = Vec::new();
    for file in files(&root().join("src"), &[".rs"]) {
        let own = module(&file);
        for (line, used) in named_modules(&code(&file)) {
            if own != "lib" && own != used && floor(&used).is_some() {
                found.push((format!("{}:{line}", file.display()), own.clone(), used));
            }
        }
    }
    assert!(found.len() > 20, "the search itself is broken: {} uses found", found.len());
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
fn every_entry_of_the_floors_exists() {
    let missing = |name: &&&str| {
        let file = root().join("src").join(format!("{name}.rs"));
        !file.exists() && !root().join("src").join(name).is_dir()
    };
    let offences: Vec<String> = FLOORS
        .iter()
        .flat_map(|floor| floor.iter())
        .filter(missing)
        .map(|name| format!("FLOORS names {name}"))
        .collect();
    report(&offences);
}

#[test]
fn no_floor_uses_one_above_and_no_leak_subject_another() {
    let mut offences = Vec::new();
    for (place, own, used) in uses() {
        let another_subject = SUBJECTS.contains(&own.as_str()) && SUBJECTS.contains(&used.as_str());
        if floor(&used) > floor(&own) || another_subject {
            offences.push(format!("{place}: {own} must not use {used}"));
        }
    }
    report(&offences);
}

/// Above the ground floor, whose pieces are small and use one another as they like.
#[test]
fn modules_of_one_floor_make_no_circle() {
    let mut edges: Vec<(String, String)> =
        uses().into_iter().map(|(_, own, used)| (own, used)).filter(|(own, _)| floor(own) > Some(0)).collect();
    edges.sort();
    edges.dedup();
    // Who uses nothing that is left, and who is used by nothing that is left, is taken away; what stays goes in circles.
    loop {
        let before = edges.len();
        let (users, used): (Vec<String>, Vec<String>) = edges.iter().cloned().unzip();
        edges.retain(|(from, to)| users.contains(to) && used.contains(from));
        if edges.len() == before {
            break;
        }
    }
    report(
        &edges.iter().map(|(own, used)| format!("{own} and {used} use one another, round about")).collect::<Vec<_>>(),
    );
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
    let named = |text: &str| -> Vec<(usize, String)> {
        named_modules(&text.lines().enumerate().map(|(i, line)| (i + 1, line.to_owned())).collect::<Vec<_>>())
    };
    let is = |found: Vec<(usize, String)>, expected: &[(usize, &str)]| {
        assert!(found.iter().map(|(line, name)| (*line, name.as_str())).eq(expected.iter().copied()), "{found:?}");
    };
    is(named("use crate::sheet::Laminate;"), &[(1, "sheet")]);
    is(named("use crate::{filter::Ladder, wave};"), &[(1, "filter"), (1, "wave")]);
    is(named("use crate::{\n    filter::{Ladder, Part}, \n    wave, \n};"), &[(2, "filter"), (3, "wave")]);
    is(named("let x = crate::leak::a(crate::joint::b());"), &[(1, "leak"), (1, "joint")]);
    is(named("use super::x;"), &[]);
}
