//! Many processes at once, and killed ones.

use super::{audited, folder, head, id, out};
use crate::helper::{audit_in, dockheft, said, status};
use rusqlite::Connection;
use std::process::{Command, Stdio};
use std::sync::atomic::{AtomicBool, Ordering};
use std::time::Instant;

#[test]
fn eight_at_once_lose_nothing_and_copies_made_meanwhile_check() {
    let folder = folder();
    let at = folder.path();
    let done = AtomicBool::new(false);
    let done = &done;
    std::thread::scope(|scope| {
        let writers: Vec<_> = (0..8)
            .map(|writer| {
                scope.spawn(move || {
                    let mut heads = Vec::new();
                    for turn in 0..3 {
                        let book = format!("out-{writer}-{turn}.xlsx");
                        let output = audit_in(at, &["list.csv", "--out", &book]);
                        assert_eq!(status(&output), 1, "{}", said(&output));
                        assert!(!said(&output).contains("busy"), "{}", said(&output));
                        heads.push(head(&out(&output)).expect("a head").1);
                    }
                    heads
                })
            })
            .collect();
        let copies = scope.spawn(move || {
            let mut made = 0;
            while made == 0 || !done.load(Ordering::Relaxed) {
                let name = format!("copy-{made}.dockheft");
                let output = dockheft(at, &["ledger", "backup", &name]);
                if status(&output) == 0 {
                    let check = dockheft(at, &["ledger", "check", "--ledger", &name]);
                    assert_eq!(status(&check), 0, "{}", out(&check));
                    made += 1;
                } else {
                    // Begun before the first audit was in it.
                    let early = ["holds nothing yet", "there is no ledger here"];
                    assert!(
                        early.iter().any(|why| said(&output).contains(why)),
                        "{}",
                        said(&output)
                    );
                }
            }
        });
        let ended: Vec<_> = writers.into_iter().map(|writer| writer.join()).collect();
        done.store(true, Ordering::Relaxed);
        copies.join().expect("copies");
        let heads: Vec<String> = ended
            .into_iter()
            .flat_map(|heads| heads.expect("a writer"))
            .collect();
        for head in &heads {
            let check = dockheft(at, &["ledger", "check", "--head", head]);
            assert_eq!(status(&check), 0, "{}", out(&check));
            assert!(out(&check).contains("audits 24,"), "{}", out(&check));
        }
    });
}

/// Killed at moments spread over the whole of a run: what was acknowledged is there, nothing is half there.
#[test]
fn killed_at_any_moment_nothing_acknowledged_is_lost() {
    let folder = folder();
    let at = folder.path();
    let begun = Instant::now();
    audited(at, "list.csv");
    let whole = begun.elapsed();
    let light = id(at, "SB-2");
    let mut heads = Vec::new();
    let mut random: u64 = 20_261_125;
    for turn in 0..100 {
        // A plain generator (Knuth, MMIX) is random enough for moments.
        random = random
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        let moment = whole.mul_f64((random >> 40) as f64 / (1u64 << 24) as f64 * 1.2);
        let audit = [
            "audit",
            "list.csv",
            "--date",
            "2026-11-25",
            "--out",
            "out.xlsx",
        ];
        let decide = [
            "decide",
            "--line",
            &light,
            "--as",
            "use estimate",
            "--by",
            "J. Rook",
        ];
        let mut child = Command::new(env!("CARGO_BIN_EXE_dockheft"))
            .current_dir(at)
            .args(if turn % 3 == 2 {
                &decide[..]
            } else {
                &audit[..]
            })
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .expect("it starts");
        std::thread::sleep(moment);
        // Ended already, or ended now.
        let _ = child.kill();
        let output = child.wait_with_output().expect("it ended");
        heads.extend(head(&out(&output)).map(|(_, head)| head));
    }
    let (_, last) = audited(at, "list.csv");
    heads.push(last);
    assert!(heads.len() > 5, "{} of 100 came to their end", heads.len());
    for head in &heads {
        let check = dockheft(at, &["ledger", "check", "--head", head]);
        assert_eq!(status(&check), 0, "{}", out(&check));
    }
    // Whole audits only: each has both of its lines.
    let db = Connection::open(at.join("ledger.dockheft")).expect("it opens");
    let counts: (i64, i64) = db
        .query_row(
            "SELECT (SELECT count(*) FROM audit), (SELECT count(*) FROM load)",
            [],
            |row| Ok((row.get(0)?, row.get(1)?)),
        )
        .expect("counts");
    assert_eq!(counts.1, 2 * counts.0);
}
