//! Whether a truck may work on a day, whatever the lift.
//! Comes in: a truck and the day. Goes out: every reason against it, in words; none when it is ready.

use super::{Class, Truck};
use chrono::NaiveDate;

/// Every reason why a truck is not used on that day; empty when it is ready.
///
/// Out of service is absolute, whatever date stands beside it (29 CFR 1910.178(p)(1)); "out until" counts to the end of
/// that day.
pub fn against(truck: &Truck, date: NaiveDate) -> Vec<String> {
    let mut reasons = Vec::new();
    if truck.faulty {
        reasons.push("its rows in the register hold a fault".to_string());
    }
    if truck.class == Some(Class::VI) {
        reasons.push("class VI: tows, never lifts".to_string());
    }
    match truck.out_until.filter(|until| date <= *until) {
        Some(until) => reasons.push(format!("out of service until {until}")),
        None if truck.available == Some(false) => reasons.push("out of service".to_string()),
        None => {}
    }
    if let Some(due) = truck.inspection_due.filter(|due| date > *due) {
        reasons.push(format!("inspection overdue since {due}"));
    }
    reasons
}

#[cfg(test)]
mod tests {
    use super::super::register::understand;
    use super::super::tests::{table, truck};
    use super::*;
    use crate::site::Units;

    #[test]
    fn every_reason_of_the_day_is_told() {
        let fleet = understand(
            &[table(
                "Truck | Class | Capacity (kg) | Load centre (mm) | Available | Out until | Inspection due\n\
                 A | V | 2000 | 500 | yes | 2026-05-03 | 2026-05-04\n\
                 B | V | 2000 | 500 | yes | 2026-05-04 | 2026-05-03\n\
                 C | VI | 2000 | 500 | no |  |\n\
                 D | IX | 2000 | 500 | yes |  |\n\
                 E | V | 2000 | 500 | no | 2026-05-04 |\n\
                 F | V | 2000 | 500 | no | 2026-05-03 |",
            )],
            Units::Si,
        );
        let on = |id: &str| {
            let day = NaiveDate::from_ymd_opt(2026, 5, 4).expect("a day");
            against(truck(&fleet, id), day).join("; ")
        };
        assert_eq!(on("A"), "");
        assert_eq!(
            on("B"),
            "out of service until 2026-05-04; inspection overdue since 2026-05-03"
        );
        assert_eq!(on("C"), "class VI: tows, never lifts; out of service");
        assert_eq!(on("D"), "its rows in the register hold a fault");
        assert_eq!(on("E"), "out of service until 2026-05-04");
        // The day is over and nobody put it back into service.
        assert_eq!(on("F"), "out of service");
    }
}
