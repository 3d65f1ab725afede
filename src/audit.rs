//! The whole job as one readable, pure function: everything (the date too) is passed in.

mod assumed_sizes;
mod columns;
mod packages;
mod sheet;
mod substance;
mod switched_off;
mod unused;
mod used;

use crate::compare::Verdict;
use crate::estimate::materials::Vocabulary;
use crate::estimate::{Before, Estimate, NoEstimate};
use crate::fleet::{Choice, Demand, Fleet, choose};
use crate::hash;
use crate::history::{EarlierDecision, History};
use crate::judge::{Finding, Off, Severity};
use crate::plan::{Plan, Trucks};
use crate::read::RawFile;
use crate::settle::{Declared, Settled};
use crate::site::{Site, Units};
use crate::understand::{self, Entered, Item, Known, SharedWeight, SheetReading};
use crate::units::{Length, Mass};
use chrono::NaiveDate;
use std::borrow::Cow;
use std::sync::Arc;

/// What an audit is asked.
pub struct Request<'a> {
    /// Files as read, in the order of the call.
    pub files: Vec<RawFile>,
    /// Files that could not be read, with the reason.
    pub refused: Vec<(String, String)>,
    /// Register, where there is one.
    pub fleet: Option<Fleet>,
    /// Settings.
    pub site: Site,
    /// Day of the audit.
    pub date: NaiveDate,
    /// Supplier, as given by option.
    pub supplier: Option<String>,
    /// Name of the delivery, as given by option.
    pub delivery: Option<String>,
    /// What earlier records know of the files.
    pub history: History,
    /// Told after each file: its name.
    pub progress: &'a dyn Fn(&str),
}

/// What the person who asks says of the lifts; it goes before what the files say.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Asked {
    /// Entry side.
    pub entered: Option<Entered>,
    /// Lift height.
    pub lift_height: Option<Length>,
    /// Attachment that the lift needs.
    pub attachment: Option<String>,
}

/// Runs an audit.
pub fn run(request: Request<'_>) -> Audit {
    as_asked(request, &Asked::default())
}

/// Runs an audit of lifts of which the person who asks says something too.
pub fn as_asked(request: Request<'_>, asked: &Asked) -> Audit {
    let Request {
        files,
        refused,
        fleet,
        site,
        date,
        supplier,
        delivery,
        history,
        progress,
    } = request;
    let known = Known {
        supplier,
        delivery,
        us: site.bare_units() == Units::Us,
        semicolons: false,
        layouts: site.supplier.clone(),
    };
    let mut identity = identity(&files, fleet.as_ref(), &site, date, &known, asked);
    let trucks = fleet.as_ref().map(|fleet| Register {
        fleet,
        site: &site,
        date,
        attachment: asked.attachment.as_deref(),
    });
    let marks = marks(&files);
    let vocabulary = Vocabulary::with(&site.material);
    let weighed = history.weighed_since(site.weighings_since(date));
    let mut sources = Vec::with_capacity(files.len());
    let mut deliveries = Vec::new();
    let mut used = History::default();
    for (source, (file, mark)) in files.into_iter().zip(&marks).enumerate() {
        let readings = understand::file(&file, &known);
        let sha256 = file.sha256;
        sources.push(Source {
            name: file.name.to_string(),
            sha256: sha256.clone(),
            kind: file.kind,
            remarks: file.remarks,
        });
        let (name, first) = (file.name, deliveries.len());
        // The raw cells are no longer needed: memory follows the largest file, not the sum of all.
        drop(file.sheets);
        for mut reading in readings {
            for item in &mut reading.items {
                item.entered = asked.entered.or(item.entered);
                item.lift_height = asked.lift_height.or(item.lift_height);
            }
            let mut delivery = sheet::audit(
                reading,
                sheet::Origin {
                    source,
                    mark,
                    sha256: &sha256,
                },
                &site,
                &vocabulary,
                trucks.as_ref().map(|trucks| trucks as &(dyn Trucks + Sync)),
                (&history, &weighed),
            );
            switched_off::take_out(&mut delivery, &site);
            deliveries.push(delivery);
        }
        let (_, of_file) = deliveries.split_at_mut(first);
        used::add(&mut used, &history, &sha256, of_file, site.units);
        progress(&name);
    }
    // What made no difference is no part of the identity.
    if !used.is_empty() {
        identity.push(serde_json::to_string(&used).unwrap_or_default());
    }
    let mut audit = Audit {
        id: short_hash(identity.iter().map(String::as_str)),
        date,
        site,
        vocabulary,
        fleet,
        sources,
        refused,
        deliveries,
        history: used,
        unused: Vec::new(),
        call: Call::default(),
    };
    audit.unused = unused::settings(&audit);
    audit
}

/// What stands for each file in the ids of its lines: its name, so that a list sent again keeps its ids; with its hash where
/// two files of the call have one name, and with a number where they are the same file twice.
fn marks(files: &[RawFile]) -> Vec<String> {
    let mut marks: Vec<String> = Vec::with_capacity(files.len());
    for (at, file) in files.iter().enumerate() {
        let of_name = files.iter().filter(|other| other.name == file.name);
        let twins = files
            .iter()
            .take(at)
            .filter(|other| other.name == file.name && other.sha256 == file.sha256);
        marks.push(match (of_name.count(), twins.count()) {
            (0 | 1, _) => file.name.to_string(),
            (_, 0) => format!("{} {}", file.name, file.sha256),
            (_, twins) => format!("{} {} {}", file.name, file.sha256, twins + 1),
        });
    }
    marks
}

/// The register as the pure function that the plan asks.
struct Register<'a> {
    fleet: &'a Fleet,
    site: &'a Site,
    date: NaiveDate,
    /// Attachment that every lift needs.
    attachment: Option<&'a str>,
}

impl Register<'_> {
    fn asked<'d>(&self, demand: &'d Demand) -> Cow<'d, Demand> {
        match self.attachment {
            Some(name) => Cow::Owned(Demand {
                attachment: Some(name.to_string()),
                ..demand.clone()
            }),
            None => Cow::Borrowed(demand),
        }
    }
}

impl Trucks for Register<'_> {
    fn smallest(&self, demand: &Demand) -> Choice {
        choose::smallest(self.fleet, &self.asked(demand), self.date, self.site)
    }

    fn takes(&self, id: &str, demand: &Demand) -> Option<Mass> {
        choose::takes(self.fleet, id, &self.asked(demand), self.date, self.site)
    }

    fn later(&self, demand: &Demand) -> Option<(String, NaiveDate)> {
        choose::later(self.fleet, &self.asked(demand), self.date, self.site)
    }
}

/// Everything that decides the result and is known beforehand: sources, register, settings, options, tables (by the program's version), date.
fn identity(
    files: &[RawFile],
    fleet: Option<&Fleet>,
    site: &Site,
    date: NaiveDate,
    known: &Known,
    asked: &Asked,
) -> Vec<String> {
    let mut parts: Vec<String> = vec![env!("CARGO_PKG_VERSION").to_string(), date.to_string()];
    parts.extend(
        files
            .iter()
            .map(|file| format!("{} {}", file.name, file.sha256)),
    );
    parts.push(format!("{fleet:?}"));
    parts.push(serde_json::to_string(site).unwrap_or_default());
    parts.push(format!("{:?}", site.bare_units()));
    parts.push(format!("{:?} {:?}", known.supplier, known.delivery));
    if *asked != Asked::default() {
        parts.push(format!("{asked:?}"));
    }
    parts
}

/// 16 hexadecimal digits of the SHA-256 over length-prefixed parts, so that no two lists of parts run together.
fn short_hash<'a>(parts: impl Iterator<Item = &'a str>) -> String {
    let mut whole = Vec::new();
    for part in parts {
        whole.extend((part.len() as u64).to_be_bytes());
        whole.extend(part.as_bytes());
    }
    hash::short(&whole)
}

/// A decision that stands for a load.
#[derive(Clone, Debug, PartialEq)]
pub struct Decided {
    /// The decision.
    pub decision: EarlierDecision,
    /// The plan without it.
    pub before: Plan,
}

/// One goods line, audited.
#[derive(Clone, Debug)]
pub struct Line {
    /// Hash of file, delivery, sheet, item and row: 16 hexadecimal digits.
    pub id: String,
    /// Hash of what a decision on it rests on: 16 hexadecimal digits.
    pub substance: String,
    /// What the file says.
    pub item: Item,
    /// What it should weigh.
    pub estimate: Result<Estimate, NoEstimate>,
    /// What the same goods weighed before.
    pub weighed: Option<Box<Before>>,
    /// Declared weight, settled.
    pub declared: Option<Declared>,
    /// Verdict.
    pub verdict: Verdict,
    /// Findings, worst first.
    pub findings: Vec<Finding>,
    /// Plan.
    pub plan: Plan,
    /// The decision that stands for it, where one does.
    pub decided: Option<Box<Decided>>,
    /// What the plan would be if the supplier confirms the best cause: mass of the line and the truck.
    pub if_corrected: Option<(Mass, Option<String>)>,
}

/// A weight that stands for several lines, audited.
#[derive(Clone, Debug)]
pub struct Package {
    /// Hash of file, delivery, supplier, sheet, name and place of its weight: 16 hexadecimal digits. Its name is one of many.
    pub id: String,
    /// Hash of what a decision on it rests on: 16 hexadecimal digits.
    pub substance: String,
    /// What the file says.
    pub shared: SharedWeight,
    /// Sum of its lines' estimates with the package's tare.
    pub estimate: Result<Estimate, NoEstimate>,
    /// Declared weight, settled.
    pub declared: Option<Declared>,
    /// Verdict.
    pub verdict: Verdict,
    /// Findings, worst first.
    pub findings: Vec<Finding>,
    /// Plan.
    pub plan: Plan,
    /// The decision that stands for it, where one does.
    pub decided: Option<Box<Decided>>,
}

/// One delivery (one sheet of one file), audited.
#[derive(Clone, Debug)]
pub struct Delivery {
    /// Position of its file among the audit's sources: two files may have one name.
    pub source: usize,
    /// How it was read; its items are moved into `lines`, its shared weights into `packages`.
    pub reading: SheetReading,
    /// Lines in the file's order.
    pub lines: Vec<Line>,
    /// Packages in the file's order.
    pub packages: Vec<Package>,
    /// Findings on the delivery as a whole.
    pub findings: Vec<Finding>,
    /// How its weight columns were settled.
    pub settled: Settled,
    /// How often each rule that the site has switched off would have spoken.
    pub off: Off,
}

/// A source file of the audit.
#[derive(Clone, Debug, PartialEq)]
pub struct Source {
    /// File name.
    pub name: String,
    /// SHA-256 of its bytes.
    pub sha256: String,
    /// What it was read as.
    pub kind: String,
    /// What a careful clerk should know about the reading.
    pub remarks: Vec<String>,
}

/// A whole call of `audit`.
#[derive(Clone, Debug)]
pub struct Audit {
    /// Hash of inputs, settings, tables, program version and date: 16 hexadecimal digits.
    pub id: String,
    /// Day of the audit.
    pub date: NaiveDate,
    /// Settings used.
    pub site: Site,
    /// Materials used: the built-in ones and the site's own.
    pub vocabulary: Arc<Vocabulary>,
    /// Register used, where there is one.
    pub fleet: Option<Fleet>,
    /// Files read.
    pub sources: Vec<Source>,
    /// Files that could not be read, with the reason in words.
    pub refused: Vec<(String, String)>,
    /// Deliveries in the order of the call.
    pub deliveries: Vec<Delivery>,
    /// What earlier records knew that it rests on.
    pub history: History,
    /// Settings that matched nothing: key in the site file, and what was not found.
    pub unused: Vec<(String, &'static str)>,
    /// What else is known of the call.
    pub call: Call,
}

/// What reports say of a call and the audit does not rest on.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Call {
    /// SHA-256 of the register's bytes.
    pub register_sha256: Option<String>,
    /// The site file's name without folders, and the SHA-256 of its bytes.
    pub site_file: Option<(String, String)>,
    /// What the folders of the call hold besides its files.
    pub left_out: Vec<String>,
    /// Size and head of the ledger once the audit was recorded in it; none where it was not.
    pub ledger: Option<(i64, String)>,
}

impl Audit {
    /// The deliveries of a source, by its position.
    pub fn deliveries_of(&self, source: usize) -> impl Iterator<Item = &Delivery> {
        let deliveries = self.deliveries.iter();
        deliveries.filter(move |delivery| delivery.source == source)
    }
}

impl Line {
    /// Worst severity among the findings.
    pub fn severity(&self) -> Option<Severity> {
        self.findings.iter().map(|finding| finding.severity).max()
    }
}
