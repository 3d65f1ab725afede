//! Packages of several lines: what the lines say of the package. Weights are geometry times density (steel 7,850 kg/m3).

use super::*;

/// The plan of the one package of a list.
#[track_caller]
fn package(delivery: &str) -> Plan {
    let register = "Truck,Class,Capacity (kg),Load centre (mm),Lift height (mm),Inspection due,Available\n\
                    A,V,3000,1300,3000,2030-01-01,yes\nB,V,4000,1300,5000,2030-01-01,yes\n";
    let audit = run(delivery, register, Site::default());
    let packages = &audit.deliveries[0].packages;
    assert_eq!(packages.len(), 1);
    packages[0].plan.clone()
}

/// Two lines of plates of `description,pieces,length,width,thickness,lift height` on a pallet of 1,150 kg.
#[track_caller]
fn plates(first: &str, second: &str) -> Plan {
    package(&format!(
        "Description,Qty,Length (mm),Width (mm),Thickness (mm),Lift height (mm),Weight (kg)\n\
         Pallet 1 - 1150 kg gross,,,,,,\n{first},\n{second},\n"
    ))
}

/// Load centre in whole millimetres, and where it came from.
fn centre(plan: &Plan) -> (f64, LoadCentreFrom) {
    (plan.load_centre.mm().round(), plan.load_centre_from)
}

#[test]
fn a_package_without_sizes_is_as_deep_as_its_longest_piece() {
    let plan = plates("Steel plate,4,2400,1200,10,", "Steel plate,1,1000,900,32,");
    assert_eq!(centre(&plan), (1_200.0, LoadCentreFrom::Piece));
    // Never less deep than the site's 48 in: small pieces say nothing of the pallet.
    let plan = plates("Steel plate,8,1000,900,16,", "Steel plate,1,1000,900,32,");
    assert_eq!(centre(&plan), (610.0, LoadCentreFrom::Default));
}

#[test]
fn the_short_side_is_taken_only_where_every_line_says_so() {
    let (said, unsaid) = ("\"Steel plate, broadside\"", "Steel plate");
    let of = |first: &str, second: &str| {
        plates(
            &format!("{first},2,2400,1400,10,"),
            &format!("{second},2,2400,1400,10,"),
        )
    };
    assert_eq!(centre(&of(said, said)), (700.0, LoadCentreFrom::Piece));
    assert_eq!(centre(&of(said, unsaid)), (1_200.0, LoadCentreFrom::Piece));
}

#[test]
fn a_package_is_no_less_deep_than_its_widest_piece() {
    let rows = "Package no,Description,Qty,Length (mm),Width (mm),Thickness (mm),Pallet size (mm),Total gross weight (kg)\n\
                P1,Steel plate,4,2400,1200,10,800x600,1150\n,Steel plate,1,2400,1200,10,,\n";
    assert_eq!(centre(&package(rows)), (600.0, LoadCentreFrom::Package));
}

#[test]
fn the_greatest_lift_height_of_the_lines_counts() {
    let truck = |first: &str, second: &str| {
        let plate = "Steel plate,2,2400,1200,10";
        let plan = plates(&format!("{plate},{first}"), &format!("{plate},{second}"));
        plan.truck.map(|truck| truck.id)
    };
    // A lifts to 3 m, B to 5 m; where nothing is said, the site's 1.5 m.
    assert_eq!(truck("1000", "2000").as_deref(), Some("A"));
    assert_eq!(truck("1000", "4000").as_deref(), Some("B"));
    assert_eq!(truck("5500", "").as_deref(), None);
}

#[test]
fn a_package_of_no_stated_kind_keeps_its_tare_without_an_estimate() {
    let plan = package(
        "Package no,Description,Qty,Net weight of the package (kg)\nP1,Spare parts,4,500\n,Other parts,1,\n",
    );
    // A pallet weighs up to 32 kg (packages table).
    assert_eq!(plan.line.map(|mass| mass.kg()), Some(532.0));
}
