//! How much a truck may take at once: pieces, the upper bound of an envelope, the site's use limit and dock rating.
//! Weights are invented or geometry times density (concrete 2,447, steel 7,850 kg/m3).

use super::*;

/// One counterbalanced truck of so many kilograms at so many millimetres that weighs 4,000 kg itself.
fn truck(capacity: u32, load_centre: u32) -> String {
    format!(
        "Truck,Class,Capacity (kg),Load centre (mm),Lift height (mm),Service weight (kg),Inspection due,Available\n\
         A,V,{capacity},{load_centre},4000,4000,2030-01-01,yes\n"
    )
}

/// The plan of the one line of `description,length,width,height,gross weight,pieces`, in mm and kg; a seventh field is pallets.
#[track_caller]
fn plan_of(row: &str, register: &str, site: Site) -> Plan {
    let pallets = if row.split(',').count() > 6 {
        ",Pallets"
    } else {
        ""
    };
    let delivery = format!(
        "Description,Length (mm),Width (mm),Height (mm),Total gross weight (kg),Qty{pallets}\n{row}\n"
    );
    lines(&run(&delivery, register, site))[0].plan.clone()
}

#[test]
fn more_pieces_at_once_are_a_deeper_load() {
    // 612 kg a block. Six stand two wide, 1 m deep: 3,671 kg for 6,000 kg at 500 mm. Seven stand three wide, 1.5 m deep:
    // 4,282 kg, where the moment leaves 6,000 x 500 / 750 = 4,000 kg.
    let plan = plan_of(
        "Concrete block,1000,500,500,7200,12",
        &truck(6_000, 500),
        Site::default(),
    );
    assert_eq!(
        (plan.lift_of, plan.lift_from),
        (LiftOf::Piece, LiftFrom::Assumed)
    );
    assert_eq!(plan.most_pieces, Some(6));
}

#[test]
fn an_upper_bound_is_divided_as_the_lifts_are() {
    // Three machines on two pallets: one pallet holds two. As solid blocks they are 3,925 kg, half of three is 2,944 kg.
    let row = "Machine,1000,500,500,1800,3,2";
    let plan = plan_of(row, &truck(3_700, 600), Site::default());
    assert_eq!((plan.lifts, plan.from), (2, PlannedFrom::Larger));
    let plan = plan_of(row, &truck(5_000, 600), Site::default());
    assert_eq!((plan.lifts, plan.from), (2, PlannedFrom::Declared));
}

#[test]
fn an_upper_bound_must_fit_the_dock_too() {
    // A solid block of that size is 1,963 kg; truck and operator leave the dock 1,410 kg.
    let dock = |rating: f64| Site {
        dock_rating_kg: Some(Mass::from_kg(rating)),
        ..Site::default()
    };
    let row = "Machine,1000,500,500,600,1";
    let plan = plan_of(row, &truck(5_000, 600), dock(5_500.0));
    assert_eq!(plan.from, PlannedFrom::Larger);
    let plan = plan_of(row, &truck(5_000, 600), dock(7_000.0));
    assert_eq!(plan.from, PlannedFrom::Declared);
}

#[test]
fn the_use_limit_counts_once_in_what_would_still_go() {
    // Two bars of 802 kg; half of 2,000 kg may be used, so one would go.
    let half = Site {
        use_limit: 0.5,
        ..Site::default()
    };
    let delivery = "Description,Qty,Length (mm),Dia (mm),Material,Total gross weight (kg)\n\
                    Round bar in a bundle,2,3250,200,S235,1604\n";
    let audit = run(delivery, &truck(2_000, 600), half);
    let why = lines(&audit)[0].plan.truck_without.clone();
    assert!(
        why.as_ref()
            .is_some_and(|why| why.contains("with at most 1 of the 2 pieces a lift A would do")),
        "{why:?}"
    );
}
