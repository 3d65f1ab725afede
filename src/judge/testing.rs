//! Tiny lists as text, read and audited whole, so that a rule's tests read as a clerk would fill a sheet. Every figure of a
//! test that is not a bound of its rule is invented or geometry times density (steel 7,850 kg/m3).

use super::{Finding, RULES, Severity};
use crate::audit::{self, Delivery, Request};
use crate::estimate;
use crate::fleet::register;
use crate::hash;
use crate::history::{DecisionKind, EarlierDecision, Goods, History, Weighing, on_list};
use crate::read;
use crate::site::Site;
use crate::units::{Length, Mass};
use chrono::{Days, NaiveDate};

/// Two counterbalanced trucks rated at 600 mm, 1,000 and 5,000 kg.
pub(super) const FLEET: &str = "Truck,Class,Capacity (kg),Load centre (mm),Lift height (mm),Available,Inspection due\n\
    YARD-1,V,1000,600,4000,yes,2027-06-01\nYARD-5,V,5000,600,4000,yes,2027-06-01\n";

/// Five plates whose figures are kilograms under a heading that says pounds; the fifth settles it.
pub(super) const KILOGRAMS_AS_POUNDS: &str = "Description,Material,Qty,Length (mm),Width (mm),Thickness (mm),Total gross weight (lb)\n\
    Steel plate,S235,1,2000,1000,10,157\nSteel plate,S235,1,2000,1000,12,188.4\n\
    Steel plate,S235,1,2000,1000,15,235.5\nSteel plate,S235,1,2000,1000,20,314\n\
    Steel plate,S235,1,2000,1000,25,392.5\n";

/// Who sends what was weighed before.
const SUPPLIER: &str = "Tarn Steel";

/// One piece on a delivery of its own, weighed in November.
fn weighing(record: i64, mass: Mass, goods: &Goods) -> Weighing {
    Weighing {
        record,
        line: format!("{record:016x}"),
        list: format!("list {record}"),
        file: format!("earlier-{record}.csv"),
        cell: "G2".to_string(),
        delivery: format!("earlier-{record}"),
        supplier: SUPPLIER.to_string(),
        day: NaiveDate::from_ymd_opt(2026, 11, 1).expect("a date") + Days::new(record as u64),
        name: "J. Rook".to_string(),
        evidence: Some(format!("scale ticket {record}")),
        mass,
        pieces: 1,
        goods: goods.clone(),
    }
}

/// A list with the register and the settings it is audited with.
pub(super) struct List {
    csv: String,
    fleet: Option<String>,
    site: Site,
    decided: Option<(DecisionKind, Option<Mass>)>,
    decided_for: Vec<Option<String>>,
    weighed: Vec<Mass>,
}

/// A list as csv, with the trucks of [`FLEET`] and the default settings (kg, mm).
pub(super) fn list(csv: &str) -> List {
    List {
        csv: csv.to_string(),
        fleet: Some(FLEET.to_string()),
        site: Site::default(),
        decided: None,
        decided_for: Vec::new(),
        weighed: Vec::new(),
    }
}

/// Rows of `description,material,pieces,length,width,thickness,gross weight of the line`, in mm and kg.
pub(super) fn plates(rows: &str) -> List {
    list(&format!(
        "Description,Material,Qty,Length (mm),Width (mm),Thickness (mm),Total gross weight (kg)\n{rows}\n"
    ))
}

impl List {
    /// With another register.
    pub(super) fn fleet(mut self, csv: &str) -> List {
        self.fleet = Some(csv.to_string());
        self
    }

    /// Without a register.
    pub(super) fn without_fleet(mut self) -> List {
        self.fleet = None;
        self
    }

    /// With other settings.
    pub(super) fn site(mut self, site: Site) -> List {
        self.site = site;
        self
    }

    /// With a decision on every line: planned with so many kilograms from then on; none where it is not lifted.
    pub(super) fn decided(mut self, kind: DecisionKind, kg: Option<f64>) -> List {
        self.decided = Some((kind, kg.map(Mass::from_kg)));
        self
    }

    /// With the decision taken when the list was taken for one of a supplier.
    pub(super) fn decided_for(mut self, supplier: &str) -> List {
        self.decided_for.push(Some(supplier.to_string()));
        self
    }

    /// With the decision taken once more, on the list as it is.
    pub(super) fn decided_again(mut self) -> List {
        self.decided_for.push(None);
        self
    }

    /// With weighings of the goods of the first line on earlier deliveries, kilograms of one piece.
    pub(super) fn weighed(mut self, pieces: &[f64]) -> List {
        self.weighed = pieces.iter().copied().map(Mass::from_kg).collect();
        self
    }

    /// Loads without sizes are taken as 1 m deep: the trucks of [`FLEET`] take their full capacity.
    pub(super) fn shallow(self) -> List {
        self.site(Site {
            default_depth_m: Length::from_m(1.0),
            ..Site::default()
        })
    }

    /// The one delivery, audited.
    #[track_caller]
    pub(super) fn audited(self) -> Delivery {
        let open = self.with(History::default());
        let mut history = History::default();
        if let Some(line) = open.lines.first() {
            let goods = estimate::goods(&line.item, &line.estimate, true);
            let of = (1..).zip(&self.weighed);
            history.weighings = of.map(|(at, piece)| weighing(at, *piece, &goods)).collect();
        }
        let Some((kind, plan)) = self.decided else {
            return self.with(history);
        };
        let suppliers = if self.decided_for.is_empty() {
            &[None][..]
        } else {
            &self.decided_for
        };
        let taken = suppliers
            .iter()
            .flat_map(|supplier| open.lines.iter().map(move |line| (supplier, line)));
        for (record, (supplier, line)) in (1..).zip(taken) {
            let place = &line.item.place;
            let place = on_list(&place.sheet, place.row, line.item.item.as_deref(), false);
            let decision = EarlierDecision {
                record,
                list: hash::sha256(self.csv.as_bytes()),
                supplier: supplier.clone(),
                substance: line.substance.clone(),
                kind,
                plan,
                evidence: None,
                name: "J. Rook".to_string(),
                day: "2026-11-24".to_string(),
            };
            history.keep(&place, &decision);
        }
        self.with(history)
    }

    #[track_caller]
    fn with(&self, history: History) -> Delivery {
        let raw = |name: &str, csv: &str| match read::bytes(name, csv.as_bytes()) {
            Ok(file) => file,
            Err((found, _)) => panic!("{name}: {found}"),
        };
        let units = self.site.units;
        let fleet = self.fleet.as_ref();
        let fleet = fleet.map(|csv| register::understand(&raw("fleet.csv", csv).sheets, units));
        let audit = audit::run(Request {
            files: vec![raw("list.csv", &self.csv)],
            refused: Vec::new(),
            fleet,
            site: self.site.clone(),
            date: NaiveDate::from_ymd_opt(2026, 11, 25).expect("a date"),
            supplier: (!history.weighings.is_empty()).then(|| SUPPLIER.to_string()),
            delivery: None,
            history,
            progress: &|_| {},
        });
        let [delivery] = <[Delivery; 1]>::try_from(audit.deliveries).expect("one delivery");
        delivery
    }

    /// The severity of a finding on each line, `-` where the line has none: `check - note`; two of them `check+check`.
    #[track_caller]
    pub(super) fn lines(self, code: &str) -> String {
        let delivery = self.audited();
        assert!(!delivery.lines.is_empty(), "no line was read");
        let said = delivery.lines.iter().map(|line| say(&line.findings, code));
        said.collect::<Vec<_>>().join(" ")
    }

    /// The severity of a finding on the delivery as a whole, `-` where it has none.
    #[track_caller]
    pub(super) fn delivery(self, code: &str) -> String {
        say(&self.audited().findings, code)
    }

    /// The message of the first such finding on a line.
    #[track_caller]
    pub(super) fn message(self, code: &str) -> String {
        let delivery = self.audited();
        let mut findings = delivery.lines.iter().flat_map(|line| &line.findings);
        let found = findings.find(|finding| finding.code == code);
        found.expect("the finding").message.clone()
    }
}

#[track_caller]
fn say(findings: &[Finding], code: &str) -> String {
    assert!(RULES.iter().any(|rule| rule.code() == code), "{code}");
    let said = findings
        .iter()
        .filter(|finding| finding.code == code)
        .map(|finding| match finding.severity {
            Severity::Note => "note",
            Severity::Check => "check",
            Severity::Stop => "stop",
        });
    let said: Vec<&str> = said.collect();
    if said.is_empty() {
        "-".to_string()
    } else {
        said.join("+")
    }
}
