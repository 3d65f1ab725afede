//! What `dockheft weigh` prints, as a whole, and the examples of README.

use crate::helper::{DAY, dockheft, status};
use crate::weigh::{folder, text, weigh};
use std::path::Path;

/// By hand: 28.274 ft3 of reinforced concrete at 150 lb/ft3 (unit weights for rigging, trade table, on file) are 4,241 lb.
/// High: two deviations of density 0.0394, making 0.02, outside 0.0535, inside 0.0428, length 0.018 (method, section 1):
/// 4,242 x exp(2 x 0.0835) = 5,013.
const GOLDEN: &str = "\
reinforced concrete pipe OD 30 in ID 24 in L 16 ft

Understood
  number          1 piece
  goods           concrete pipe
  material        reinforced concrete
  sizes           length 16 ft, outside 30 in, inside 24 in

Working
  1. volume of one pipe
     pi / 4 x (outside^2 - inside^2) x length
     outside 30 in = 2.5 ft, inside 24 in = 2 ft, length 16 ft
     = pi / 4 x (2.5^2 - 2^2) x 16 (ft) = 28.274 ft3
     source: geometry
  2. mass of one piece
     volume x density
     = 28.274 ft3 x 150.01 lb/ft3 = 4,241.6 lb
     source: reinforced concrete (reinforced concrete pipe): trade table, on file (unit weights for
             rigging): 150 lb/ft3; also EN 1991-1-1:2002 Annex A Table A.1 (Bulgarian edition): 24.0
             + 1.0 kN/m3 for normal reinforcement; also DIN EN 12524:2000, building materials,
             tabulated design values (seen in transcription): 2300 (1% steel) and 2400 (2% steel)
             kg/m3, published

Expected
  whole load      low 3,628, likely 4,242, high 5,013 lb
";

/// Capacity by hand: 8,000 lb at 24 in carried out to 15 in stays 8,000 lb; the plate row holds to 100 in.
const GOLDEN_LIFT: &str = "\
Assumed, and to settle
  - one piece: no number was typed (type \"3 pcs\" or \"x 3\", or give --pieces 3)
  - a long load, 16 ft 0 in across the forks: spread them wide and equally to its middle.

Lift
  planning weight 5,013 lb a lift (whole load: the larger of likely + 10 % (4,666 lb) and high
                  (5,013 lb))
  load centre     15 in (0.5 of 30 in along the forks; size of the piece, entered broadside as
                  asked)
  truck           C: lifts 8,000 lb there, 63 % used

Why no smaller truck
  truck           why not
  --------------  --------------------------------------------------------------------------------
  A               lifts 3,000 lb at 15 in, 2,013 lb short
  B               out of service until 2026-12-04
  D               wears drum clamp, forks needed

An estimate is not a weighing.
The capacity plate on the truck, the manufacturer, the site's rules and local law come first.
Only trained and authorised operators lift.
A load whose weight is in doubt stays down until it is weighed or documented.
Not judged: slings and rigging, stability, the centre of gravity of odd loads, the order of lifting.
";

#[test]
fn the_answer_is_worked_as_on_paper() {
    let folder = folder();
    let options = [
        "--fleet",
        "fleet.csv",
        "--entered",
        "broadside",
        "--height",
        "8 ft",
    ];
    let typed = "reinforced concrete pipe OD 30 in ID 24 in L 16 ft";
    let output = weigh(folder.path(), typed, &options);
    let text = text(&output);
    assert!(text.starts_with(GOLDEN), "{text}");
    assert!(text.ends_with(GOLDEN_LIFT), "{text}");
    assert_eq!(status(&output), 0);
}

/// What README shows is what the program says.
#[test]
fn the_examples_of_the_readme_are_true() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let readme = std::fs::read_to_string(root.join("README.md")).expect("README");
    let shown = |command: &str| {
        let (_, after) = readme
            .split_once(&format!("{command}\n```"))
            .expect(command);
        let block = after.split("```text\n").nth(1).expect("an output");
        block.split("```").next().expect("its end").to_string()
    };
    let site = ["--site", "fixtures/kestrel-junction/site.toml"];
    let typed = "pipe OD 30 in ID 24 in L 8 ft reinforced concrete x 3";
    let output = weigh(root, typed, &site);
    let command = format!(
        "dockheft weigh \"{typed}\" --site fixtures/kestrel-junction/site.toml --date {DAY}"
    );
    let whole = text(&output);
    let excerpt = shown(&command);
    assert!(excerpt.lines().count() > 15, "{excerpt}");
    // The example leaves out what stands between, marked by three points.
    let mut rest = whole.as_str();
    for part in excerpt.split("...\n") {
        let at = rest.find(part);
        assert!(at.is_some(), "not said in this order:\n{part}\nin\n{whole}");
        rest = &rest[at.unwrap_or(0) + part.len()..];
    }
    let output = dockheft(root, &["tables", "rails", "115"]);
    assert_eq!(shown("dockheft tables rails 115"), text(&output));
}
