//! The house rules that a machine can hold: what each stage may touch, sizes, docs, sources, no traces of where it was made.

use std::path::{Path, PathBuf};

/// Code files that are longer than [`MOST_LINES`], each with the reason.
const LONG: [(&str, &str); 1] = [(
    "fixtures/kestrel-junction/make_demo.py",
    "it holds the demo's data",
)];
const MOST_LINES: usize = 400;

/// What every module may use: no stage of the job.
const GROUND: [&str; 6] = ["place", "error", "hash", "site", "units", "tables"];
/// The stages in order. Each may use the ground and the stages before it.
const ORDER: [&str; 18] = [
    "read",
    "understand",
    "history",
    "estimate",
    "settle",
    "compare",
    "causes",
    "fleet",
    "plan",
    "judge",
    "audit",
    "replay",
    "scorecard",
    "report",
    "ledger",
    "returned",
    "cli",
    "commands",
];
const OUTSIDE: [&str; 10] = [
    "std::fs",
    "std::net",
    "std::env",
    "std::process",
    "std::io",
    "SystemTime",
    "Instant::now",
    "Local::now",
    "Utc::now",
    "option_env",
];

/// Stages that touch neither files nor clocks: those between reading and reporting.
fn is_pure(stage: &str) -> bool {
    let place = |name: &str| ORDER.iter().position(|one| *one == name);
    place("read") < place(stage) && place(stage) < place("report")
}

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// All files below a folder; builds and written reports are no part of the project.
fn files(folder: &Path) -> Vec<PathBuf> {
    let mut found = Vec::new();
    for entry in std::fs::read_dir(folder).expect("a folder") {
        let path = entry.expect("an entry").path();
        let name = path
            .file_name()
            .expect("a name")
            .to_string_lossy()
            .into_owned();
        if [".git", "target", "reports", "__pycache__"].contains(&name.as_str()) {
            continue;
        }
        if path.is_dir() {
            found.extend(files(&path))
        } else {
            found.push(path)
        }
    }
    found.sort();
    found
}

/// Name from the project's folder on.
fn named(path: &Path) -> String {
    path.strip_prefix(root())
        .expect("inside the project")
        .to_string_lossy()
        .replace('\\', "/")
}

/// Files of an ending below a folder, with their text.
fn texts(folder: &str, endings: &[&str]) -> Vec<(String, String)> {
    let of = |path: &PathBuf| {
        path.extension()
            .is_some_and(|ending| endings.contains(&&*ending.to_string_lossy()))
    };
    let found = files(&root().join(folder)).into_iter().filter(of);
    let found: Vec<_> = found
        .map(|path| (named(&path), std::fs::read_to_string(&path).expect("UTF-8")))
        .collect();
    assert!(!found.is_empty(), "no files in {folder}");
    found
}

/// The source files with their code: no test modules, no comments.
fn production() -> Vec<(String, String)> {
    let all = texts("src", &["rs"]);
    let tests: Vec<String> = all
        .iter()
        .flat_map(|(name, text)| test_modules(name, text))
        .collect();
    let is_test = |name: &str| {
        tests
            .iter()
            .any(|test| name == format!("{test}.rs") || name.starts_with(&format!("{test}/")))
    };
    all.into_iter()
        .filter(|(name, _)| !is_test(name))
        .map(|(name, text)| (name, code(&text)))
        .collect()
}

/// Paths, without ending, of the modules that a file has for its tests alone.
fn test_modules(name: &str, text: &str) -> Vec<String> {
    let folder = name.trim_end_matches(".rs");
    let after = text
        .split("#[cfg(test)]\n")
        .skip(1)
        .filter_map(|rest| rest.split_once(';')?.0.split_once("mod "));
    after
        .filter(|(before, module)| !before.contains(char::is_whitespace) && !module.contains(' '))
        .map(|(_, module)| format!("{folder}/{module}"))
        .collect()
}

/// A file's text without the test module at its end and without comments.
fn code(text: &str) -> String {
    let end = text.find("#[cfg(test)]\nmod tests {").unwrap_or(text.len());
    let lines = text[..end]
        .lines()
        .filter(|line| !line.trim_start().starts_with("//"));
    lines.collect::<Vec<_>>().join("\n")
}

/// The top module that a source file belongs to.
fn module(name: &str) -> &str {
    let rest = name.strip_prefix("src/").unwrap_or(name);
    rest.split(['/', '.']).next().unwrap_or(rest)
}

/// Top modules that a text names after `crate::`, also in braces.
fn used(text: &str) -> Vec<String> {
    let word = |text: &str| {
        text.chars()
            .take_while(|letter| letter.is_alphanumeric() || *letter == '_')
            .collect::<String>()
    };
    let mut found = Vec::new();
    for part in text.split("crate::").skip(1) {
        match part.strip_prefix('{') {
            Some(list) => found.extend(
                list.split('}')
                    .next()
                    .unwrap_or("")
                    .split(',')
                    .map(|item| word(item.trim_start())),
            ),
            None => found.push(word(part)),
        }
    }
    found
}

#[track_caller]
fn none(faults: Vec<String>) {
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

#[test]
fn pure_stages_touch_neither_files_nor_clocks() {
    let mut faults = Vec::new();
    for (name, code) in production()
        .iter()
        .filter(|(name, _)| is_pure(module(name)))
    {
        faults.extend(
            OUTSIDE
                .iter()
                .filter(|word| code.contains(**word))
                .map(|word| format!("{name}: {word}")),
        );
    }
    none(faults);
}

#[test]
fn no_stage_uses_a_later_one() {
    let rank = |module: &str| ORDER.iter().position(|stage| *stage == module);
    let mut faults = Vec::new();
    for (name, code) in production() {
        let own = module(&name);
        if ["main", "lib"].contains(&own) {
            continue;
        }
        for other in used(&code) {
            let known = rank(&other).is_some() || GROUND.contains(&other.as_str());
            // The ground has no rank: it comes before every stage.
            if !known && other.starts_with(|letter: char| letter.is_lowercase())
                || rank(&other) > rank(own)
            {
                faults.push(format!("{name} uses {other}"));
            }
        }
        if rank(own).is_none() && !GROUND.contains(&own) {
            faults.push(format!("{name}: {own} has no place in the order"));
        }
    }
    none(faults);
}

#[test]
fn every_file_says_what_it_is_for() {
    let said = |text: &str| {
        text.lines()
            .next()
            .is_some_and(|line| line.starts_with("//! ") && line.len() > 8)
    };
    let all = texts("src", &["rs"])
        .into_iter()
        .chain(texts("tests", &["rs"]));
    none(
        all.filter(|(_, text)| !said(text))
            .map(|(name, _)| name)
            .collect(),
    );
}

#[test]
fn files_stay_short() {
    let code = ["rs", "py", "sh"];
    let all = texts("src", &code)
        .into_iter()
        .chain(texts("tests", &code))
        .chain(texts("fixtures", &code));
    let lengths: Vec<(String, usize)> = all
        .map(|(name, text)| (name, text.lines().count()))
        .collect();
    let listed = |name: &str| LONG.iter().any(|(long, _)| *long == name);
    let long = lengths
        .iter()
        .filter(|(name, lines)| *lines > MOST_LINES && !listed(name))
        .map(|(name, lines)| format!("{name}: {lines} lines"));
    let unneeded = LONG.iter().filter(|(long, _)| {
        !lengths
            .iter()
            .any(|(name, lines)| name == long && *lines > MOST_LINES)
    });
    none(
        long.chain(unneeded.map(|(name, _)| format!("{name} is listed as long and is not")))
            .collect(),
    );
}

#[test]
fn every_rule_is_registered() {
    let registry =
        std::fs::read_to_string(root().join("src/judge/rules.rs")).expect("the registry");
    let rules = files(&root().join("src/judge/rules"));
    assert!(rules.len() > 20, "{}", rules.len());
    let stem = |path: &PathBuf| {
        path.file_stem()
            .expect("a name")
            .to_string_lossy()
            .into_owned()
    };
    let missing = |rule: &String| {
        !registry.contains(&format!("mod {rule};")) || !registry.contains(&format!("&{rule}::"))
    };
    none(rules.iter().map(stem).filter(missing).collect());
}

#[test]
fn every_table_row_has_a_source() {
    let mut faults = Vec::new();
    let mut rows = 0;
    for (name, text) in texts("src/tables", &["csv"]) {
        let mut reader = csv::Reader::from_reader(text.as_bytes());
        let headings = reader.headers().expect("headings").clone();
        let Some(source) = headings.iter().position(|heading| heading == "source") else {
            faults.push(format!("{name}: no column \"source\""));
            continue;
        };
        for record in reader.records() {
            let record = record.expect("a row");
            rows += 1;
            if record.get(source).is_none_or(|text| text.trim().len() < 3) {
                faults.push(format!(
                    "{name}, line {}: no source",
                    record.position().map_or(0, csv::Position::line)
                ));
            }
        }
    }
    assert!(rows > 3000, "{rows} rows were looked at");
    none(faults);
}

/// Paths of the machine it was written on, web addresses, hosts of package registries. Cargo.lock names its registry
/// by its nature, a licence is quoted whole; this file holds these words as what must not be found.
#[test]
fn nothing_speaks_of_where_it_was_made() {
    const WORDS: [&str; 7] = [
        "/work",
        "/root",
        "/home",
        "/tmp",
        "crates.io",
        "http",
        "www.",
    ];
    // The names of a workbook's parts are written as web addresses by the standard (ECMA-376).
    const EXEMPT: [&str; 4] = [
        "Cargo.lock",
        "LICENSE",
        "tests/suite/tidy.rs",
        "fixtures/hazards/make_hazards.py",
    ];
    let mut faults = Vec::new();
    let all = files(root());
    assert!(all.len() > 150, "{} files", all.len());
    for path in all {
        let name = named(&path);
        let Ok(text) = std::fs::read_to_string(&path) else {
            continue;
        };
        if EXEMPT.contains(&name.as_str()) {
            continue;
        }
        for word in WORDS {
            // A path ends at its word: "report/workbook" is none.
            let ends = |at: usize| {
                !word.starts_with('/')
                    || !text[at + word.len()..].starts_with(char::is_alphanumeric)
            };
            faults.extend(
                text.match_indices(word)
                    .filter(|(at, _)| ends(*at))
                    .map(|(at, _)| format!("{name}, line {}: {word}", text[..at].lines().count())),
            );
        }
    }
    none(faults);
}

/// Names of goods that only one maker may use, so that none of them stands here either: the first four bytes of the
/// SHA-256 of each, in small letters. A standard's name for the same thing stands in the tables instead.
const BRANDS: [u32; 48] = [
    0x0342ece2, 0x05f0fa02, 0x0f10d3f1, 0x161fcf00, 0x1a195e2e, 0x1b5e808c, 0x2068b6fb, 0x271f2f23,
    0x30c8724e, 0x417f5909, 0x427d33af, 0x483a6243, 0x4e460019, 0x50104931, 0x51562ddf, 0x545f7c7c,
    0x554bc016, 0x5d2d9d13, 0x608821bc, 0x60d64de2, 0x6419cbcc, 0x70171658, 0x71ffac2d, 0x730874bd,
    0x78f9cf81, 0x7a2c291a, 0x7cc31fa7, 0x81f5c5cc, 0x8ba94a58, 0x8fe1f2da, 0x909b70f5, 0x919dca84,
    0x99443ae8, 0xa4374717, 0xb10114bf, 0xb1f30231, 0xb6c1d4c7, 0xc9dd3535, 0xcebdc0ac, 0xd72f51b2,
    0xdd127d5c, 0xdd3921ae, 0xdfcfe3c8, 0xe360ee43, 0xe68b18c9, 0xeae9ee01, 0xeba2a156, 0xf7be1f62,
];

/// The brands among a text's words.
fn brands(text: &str) -> Vec<String> {
    use sha2::{Digest, Sha256};
    let words: std::collections::BTreeSet<String> = text
        .split(|letter: char| !letter.is_ascii_alphabetic())
        .filter(|word| word.len() > 4)
        .map(str::to_lowercase)
        .collect();
    let is_brand = |word: &String| {
        let [a, b, c, d, ..]: [u8; 32] = Sha256::digest(word.as_bytes()).into();
        BRANDS.contains(&u32::from_be_bytes([a, b, c, d]))
    };
    words.into_iter().filter(is_brand).collect()
}

#[test]
fn no_brand_stands_anywhere() {
    // A brand in pieces, as the check would find it whole.
    assert_eq!(brands(&format!("a {}{}, cut", "tuf", "NOL")).len(), 1);
    let mut faults = Vec::new();
    for path in files(root()) {
        let name = named(&path);
        if let Ok(text) = std::fs::read_to_string(&path)
            && !["Cargo.lock", "LICENSE"].contains(&name.as_str())
        {
            faults.extend(brands(&text).iter().map(|word| format!("{name}: {word}")));
        }
    }
    none(faults);
}
