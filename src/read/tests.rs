//! Files as suppliers send them, hazard by hazard.

use super::testing::{read, shown};

#[test]
fn manifests() {
    for entry in std::fs::read_dir("lists").unwrap() {
        let path = entry.unwrap().path();
        let name = path.file_name().unwrap().to_string_lossy().to_string();
        if !name.starts_with('s') {
            continue;
        }
        let f = read(&name, &std::fs::read(&path).unwrap());
        println!("#### {name}: {} {:?}", f.kind, f.remarks);
        for s in &f.sheets {
            println!(
                "== {} hidden {} cols {:?} merged {:?}",
                s.name, s.hidden, s.hidden_columns, s.merged
            );
        }
        println!("{}", shown(&f).replace(" | ", "\n"));
    }
    for n in ["pl", "pl2", "jp", "zh", "de", "ru", "tr", "deg", "it"] {
        let f = read(n, &std::fs::read(format!("/tmp/{n}.csv")).unwrap());
        println!(
            "#### {n}: {} {}",
            f.kind,
            shown(&f).chars().take(200).collect::<String>()
        );
    }
}
