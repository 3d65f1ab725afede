//! The plan of one load: planning weight, lifts, load centre, truck, and what to do when none is adequate.

use super::weight::{Planned, declared_gross, planning};
use super::{Hold, LiftFrom, LiftOf, Load, Plan, PlannedFrom, grouping, load_centre};
use crate::compare::Verdict;
use crate::fleet::choose::Strongest;
use crate::fleet::{Choice, Demand, WhyNot};
use crate::site::Site;
use crate::units::Mass;

/// The fleet as a pure function: what it answers for a demand.
pub trait Trucks {
    /// Smallest adequate truck.
    fn smallest(&self, demand: &Demand) -> Choice;
    /// The most that any ready truck takes at the demand's load centre and height.
    fn most(&self, demand: &Demand) -> Option<Strongest>;
}

/// Plans one load. Without `trucks` (no register) weights and lifts are planned and no truck is named.
pub fn plan(load: &Load<'_>, site: &Site, trucks: Option<&dyn Trucks>) -> Plan {
    if load.verdict == Verdict::Shared {
        return shared(site);
    }
    let planner = Planner { load, site, trucks };
    let whole = load_centre::of(load, LiftOf::Line, load.basics.pieces, site);
    let first = planning(load, site.margin, |upper| {
        planner.declared_carries(upper, &whole)
    });
    let grouping = grouping::group(load, first.map(|planned| planned.mass), site.hand_piece_kg);
    let in_lift = load.basics.pieces.max(1).div_ceil(grouping.lifts.max(1));
    let centre = load_centre::of(load, grouping.of, in_lift, site);
    let planned = planning(load, site.margin, |upper| {
        planner.declared_carries(upper / f64::from(grouping.lifts.max(1)), &centre)
    });
    planner.settle(planned, grouping, centre)
}

fn shared(site: &Site) -> Plan {
    Plan {
        lifts: 0,
        lift_of: LiftOf::Shared,
        lift_from: LiftFrom::Stated,
        line: None,
        lift: None,
        from: PlannedFrom::None,
        load_centre: site.default_depth_m / 2.0,
        load_centre_from: super::LoadCentreFrom::Package,
        depth: site.default_depth_m,
        truck: None,
        truck_without: Some("lifted with its package".to_string()),
        why_not: Vec::new(),
        declared_truck: None,
        most_pieces: None,
        unchecked: false,
        divided: false,
        tall: false,
        held: Vec::new(),
    }
}

struct Planner<'a> {
    load: &'a Load<'a>,
    site: &'a Site,
    trucks: Option<&'a dyn Trucks>,
}

impl Planner<'_> {
    fn demand(&self, weight: Mass, centre: &load_centre::Centre) -> Demand {
        Demand {
            weight,
            load_centre: centre.load_centre,
            lift_height: self
                .load
                .basics
                .lift_height
                .unwrap_or(self.site.lift_height_m),
            depth: (centre.from != super::LoadCentreFrom::Default).then_some(centre.depth),
            place: None,
            attachment: None,
        }
    }

    /// Whether the truck that the declared weight of one lift picks also carries `upper`.
    fn declared_carries(&self, upper: Mass, centre: &load_centre::Centre) -> bool {
        let lifts = f64::from(
            grouping::group(
                self.load,
                declared_gross(self.load),
                self.site.hand_piece_kg,
            )
            .lifts
            .max(1),
        );
        let Some((trucks, declared)) = self.trucks.zip(declared_gross(self.load)) else {
            return false;
        };
        let chosen = trucks
            .smallest(&self.demand(declared / lifts, centre))
            .truck;
        chosen.is_some_and(|truck| upper.fits(truck.capacity.mass * self.site.use_limit))
    }

    fn settle(
        &self,
        planned: Option<Planned>,
        grouping: grouping::Grouping,
        centre: load_centre::Centre,
    ) -> Plan {
        let pieces = self.load.basics.pieces.max(1);
        let mut plan = Plan {
            lifts: grouping.lifts,
            lift_of: grouping.of,
            lift_from: grouping.from,
            line: planned.map(|planned| planned.mass),
            lift: None,
            from: planned.map_or(PlannedFrom::None, |planned| planned.from),
            load_centre: centre.load_centre,
            load_centre_from: centre.from,
            depth: centre.depth,
            truck: None,
            truck_without: None,
            why_not: Vec::new(),
            declared_truck: None,
            most_pieces: None,
            unchecked: planned.is_some_and(|planned| planned.unchecked),
            divided: false,
            tall: false,
            held: Vec::new(),
        };
        let Some(planned) = planned else {
            plan.truck_without =
                Some("the weight is not known: weigh it or get it documented first".to_string());
            return plan;
        };
        let lift = self.per_lift(planned.mass, grouping.lifts);
        plan.lift = Some(lift);
        let Some(trucks) = self.trucks else {
            plan.truck_without = Some("no fleet register was given".to_string());
            return plan;
        };
        let choice = trucks.smallest(&self.demand(lift, &centre));
        plan.tall = self.tall(&choice, &centre);
        plan.why_not = choice.why_not;
        if let Some(declared) = declared_gross(self.load) {
            plan.declared_truck = self.declared_truck(
                trucks,
                self.per_lift(declared, grouping.lifts),
                lift,
                &centre,
            );
        }
        match choice.truck {
            Some(truck) => {
                if grouping.from == LiftFrom::Assumed && pieces > 1 {
                    plan.most_pieces = self.most_pieces(planned.mass, truck.capacity.mass);
                }
                plan.truck = Some(truck);
            }
            None if grouping.of == LiftOf::Line
                && pieces > 2
                && self.divide(trucks, planned.mass, &mut plan) => {}
            None => {
                plan.truck_without = Some(self.why_none(
                    trucks,
                    planned.mass,
                    lift,
                    &centre,
                    choice.strongest,
                    &plan.why_not,
                ))
            }
        }
        plan
    }

    /// The heaviest of so many lifts: the tare of one and the weight of its share of the pieces, rounded up to whole pieces.
    fn per_lift(&self, line: Mass, lifts: u32) -> Mass {
        let lifts = lifts.max(1);
        let pieces = self.load.basics.pieces.max(1);
        let tare = self.load.tare().high.min(line);
        let share = f64::from(pieces.div_ceil(lifts)) / f64::from(pieces);
        // Fewer pieces than packages: each package still holds its part.
        let share = share.min(1.0).max(1.0 / f64::from(lifts));
        (line - tare) * share + tare / f64::from(lifts)
    }

    fn most_pieces(&self, line: Mass, capacity: Mass) -> Option<u32> {
        let piece = line / f64::from(self.load.basics.pieces.max(1));
        let most = (capacity * self.site.use_limit / piece * (1.0 + crate::units::TIE)).floor();
        (most >= 1.0).then(|| most.min(f64::from(self.load.basics.pieces)) as u32)
    }

    /// The truck that the declared weight alone would have picked, and by how much the planning weight overloads it.
    fn declared_truck(
        &self,
        trucks: &dyn Trucks,
        declared: Mass,
        lift: Mass,
        centre: &load_centre::Centre,
    ) -> Option<(String, Mass)> {
        let chosen = trucks.smallest(&self.demand(declared, centre)).truck?;
        let over = if lift.fits(chosen.capacity.mass) {
            Mass::ZERO
        } else {
            lift - chosen.capacity.mass
        };
        Some((chosen.id, over))
    }

    /// Divides a whole line that no truck carries into the fewest equal lifts that one does; at least two pieces a lift.
    fn divide(&self, trucks: &dyn Trucks, line: Mass, plan: &mut Plan) -> bool {
        let pieces = self.load.basics.pieces;
        let adequate = |in_lift: u32| {
            let centre = load_centre::of(self.load, LiftOf::Line, in_lift, self.site);
            let lift = self.per_lift(line, pieces.div_ceil(in_lift));
            let choice = trucks.smallest(&self.demand(lift, &centre));
            choice.truck.is_some().then_some((lift, centre, choice))
        };
        // Fewer pieces a lift are lighter and no deeper: the largest number that one truck carries is found by halving.
        let (mut carried, mut too_many) = (1u32, pieces);
        while too_many - carried > 1 {
            let middle = carried + (too_many - carried) / 2;
            if adequate(middle).is_some() {
                carried = middle
            } else {
                too_many = middle
            }
        }
        if carried < 2 {
            return false;
        }
        let lifts = pieces.div_ceil(carried);
        let Some((lift, centre, choice)) = adequate(pieces.div_ceil(lifts)) else {
            return false;
        };
        plan.lifts = lifts;
        plan.lift = Some(lift);
        plan.lift_from = LiftFrom::Assumed;
        plan.load_centre = centre.load_centre;
        plan.load_centre_from = centre.from;
        plan.depth = centre.depth;
        plan.tall = self.tall(&choice, &centre);
        plan.why_not = choice.why_not;
        plan.most_pieces = choice
            .truck
            .as_ref()
            .and_then(|truck| self.most_pieces(line, truck.capacity.mass));
        plan.truck = choice.truck;
        plan.divided = true;
        plan.held.push(Hold::Divided);
        true
    }

    /// What is missing, and how many pieces fewer per lift would do.
    fn why_none(
        &self,
        trucks: &dyn Trucks,
        line: Mass,
        lift: Mass,
        centre: &load_centre::Centre,
        strongest: Option<(String, Mass)>,
        why_not: &[WhyNot],
    ) -> String {
        let Some((id, takes)) = strongest else {
            let clauses: Vec<String> = why_not
                .iter()
                .rev()
                .take(2)
                .rev()
                .map(|no| format!("{}: {}", no.truck, no.clause))
                .collect();
            let named = if clauses.is_empty() {
                String::new()
            } else {
                format!(" ({})", clauses.join("; "))
            };
            return format!(
                "no truck of the register can take this lift{named}; another way of lifting it, planned by a competent person"
            );
        };
        let shown = |mass: Mass| crate::units::show::planning(mass, self.site.units);
        let missing = shown(lift - takes);
        let fits = crate::units::show::capacity(takes, self.site.units);
        let mut why = format!(
            "no truck is adequate: {id} lifts most at this load centre, {fits}, {missing} short"
        );
        let pieces = self.load.basics.pieces;
        let fewer = self.most_pieces(line, takes).filter(|fewer| {
            *fewer >= 1 && pieces > 1 && centre.from != super::LoadCentreFrom::Package
        });
        match fewer {
            Some(fewer) if fewer < pieces && trucks.most(&self.demand(lift, centre)).is_some() => {
                why.push_str(&format!("; with at most {fewer} of the {pieces} pieces a lift {id} would do, if they can be taken apart"));
            }
            _ => why.push_str("; heavier lifting gear, planned by a competent person"),
        }
        why
    }

    /// Half of the height above the load centre that the plate stands for.
    fn tall(&self, choice: &Choice, centre: &load_centre::Centre) -> bool {
        let plate = choice.truck.as_ref().map(|truck| truck.capacity.rated_at);
        plate
            .zip(centre.height)
            .is_some_and(|(plate, height)| !(height / 2.0).fits(plate))
    }
}
