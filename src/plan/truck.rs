//! The plan of one load: planning weight, lifts, load centre, truck.

use super::instead::most_carried;
use super::weight::{Planned, declared_gross, planning, still_possible};
use super::{Hold, LiftFrom, LiftOf, Load, Plan, PlannedFrom, grouping, load_centre};
use crate::compare::Verdict;
use crate::fleet::{Choice, Demand};
use crate::site::Site;
use crate::tables::packages;
use crate::units::Mass;
use chrono::NaiveDate;

/// The fleet as a pure function: what it answers for a demand.
pub trait Trucks {
    /// Smallest adequate truck.
    fn smallest(&self, demand: &Demand) -> Choice;
    /// The most that the named truck may take at the demand's load centre and height (capacity, use limit, dock rating);
    /// none where it will not do there at any weight.
    fn takes(&self, id: &str, demand: &Demand) -> Option<Mass>;
    /// The first later day on which a truck that is out until then would take it, and that truck.
    fn later(&self, demand: &Demand) -> Option<(String, NaiveDate)>;
}

/// Plans one load. Without `trucks` (no register) weights and lifts are planned and no truck is named.
pub fn plan(load: &Load<'_>, site: &Site, trucks: Option<&dyn Trucks>) -> Plan {
    if load.verdict == Verdict::Shared {
        return shared(site);
    }
    let planner = Planner { load, site, trucks };
    let whole = load_centre::of(load, LiftOf::Line, load.basics.pieces, site);
    let first = planning(load, site.margin, |upper| {
        planner.declared_carries(upper, 1, &whole)
    });
    let grouping = grouping::group(load, first.map(|planned| planned.mass), site.hand_piece_kg);
    let in_lift = load.basics.pieces.max(1).div_ceil(grouping.lifts.max(1));
    let centre = load_centre::of(load, grouping.of, in_lift, site);
    let planned = planning(load, site.margin, |upper| {
        planner.declared_carries(upper, grouping.lifts, &centre)
    });
    planner.settle(planned, grouping, centre)
}

fn shared(site: &Site) -> Plan {
    Plan {
        lifts: 0,
        lift_of: LiftOf::Shared,
        lift_from: LiftFrom::Stated,
        line: None,
        beside: Mass::ZERO,
        lift: None,
        from: PlannedFrom::None,
        still_possible: Mass::ZERO,
        takes: None,
        sizes_assumed: false,
        load_centre: site.default_depth_m / 2.0,
        load_centre_from: super::LoadCentreFrom::Package,
        depth: site.default_depth_m,
        across: None,
        truck: None,
        truck_without: Some("lifted with its package".to_string()),
        instead: Vec::new(),
        why_not: Vec::new(),
        declared_truck: None,
        most_pieces: None,
        unchecked: false,
        divided: false,
        tall: false,
        held: Vec::new(),
    }
}

/// One load on its way to a plan.
pub(super) struct Planner<'a> {
    pub(super) load: &'a Load<'a>,
    pub(super) site: &'a Site,
    trucks: Option<&'a dyn Trucks>,
}

impl Planner<'_> {
    /// What a lift of this weight asks of a truck.
    pub(super) fn demand(&self, weight: Mass, centre: &load_centre::Centre) -> Demand {
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
            attachment: self.attachment(),
        }
    }

    /// The attachment that the site asks for goods of this kind; none where they stand on or in something for forks.
    fn attachment(&self) -> Option<String> {
        let packed_as = self.load.basics.packed_as;
        if packed_as.is_some_and(packages::on_forks) || self.load.basics.on_package {
            return None;
        }
        let goods = self.load.goods().map(|goods| goods.name.as_str());
        let of_kind = |kind: &str| self.site.attachment_by_goods.get(kind).cloned();
        goods
            .and_then(of_kind)
            .or_else(|| packed_as.and_then(of_kind))
    }

    /// Whether the truck that the declared weight of one lift picks may also take that lift of a line of `upper`; never where
    /// that bound rests on sizes whose unit nobody states.
    fn declared_carries(&self, upper: Mass, lifts: u32, centre: &load_centre::Centre) -> bool {
        !self.load.basics.sizes_assumed
            && self
                .declared_truck(upper, lifts, centre)
                .is_some_and(|(_, over)| over == Mass::ZERO)
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
            beside: self.load.beside,
            from: planned.map_or(PlannedFrom::None, |planned| planned.from),
            still_possible: still_possible(self.load),
            takes: None,
            sizes_assumed: self.load.basics.sizes_assumed,
            load_centre: centre.load_centre,
            load_centre_from: centre.from,
            depth: centre.depth,
            across: centre.across,
            truck: None,
            truck_without: None,
            instead: Vec::new(),
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
        plan.declared_truck = self.declared_truck(planned.mass, grouping.lifts, &centre);
        match choice.truck {
            Some(truck) => {
                let alone = self.load.beside == Mass::ZERO;
                if grouping.from == LiftFrom::Assumed && pieces > 1 && alone {
                    plan.most_pieces = self.most_pieces(trucks, planned.mass, &truck.id);
                }
                plan.takes = trucks.takes(&truck.id, &self.demand(lift, &centre));
                plan.truck = Some(truck);
            }
            None if grouping.of == LiftOf::Line
                && pieces > 2
                && self.load.beside == Mass::ZERO
                && self.divide(trucks, planned.mass, &mut plan) =>
            {
                plan.instead = self.instead(trucks, &plan, lift, &centre);
            }
            None => {
                plan.instead = self.instead(trucks, &plan, lift, &centre);
                plan.truck_without = Some(self.why_none(&plan, lift, choice.strongest));
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
        (line - tare) * share + tare / f64::from(lifts) + self.load.beside
    }

    /// So many pieces at once: they may stand on the whole of the line's tare.
    pub(super) fn weight_of(&self, line: Mass, at_once: u32) -> Mass {
        let pieces = self.load.basics.pieces.max(1);
        let tare = self.load.tare().high.min(line);
        (line - tare) * (f64::from(at_once) / f64::from(pieces)) + tare
    }

    /// The most pieces that the named truck may take at once: more of them are a deeper load as well as a heavier one.
    fn most_pieces(&self, trucks: &dyn Trucks, line: Mass, id: &str) -> Option<u32> {
        let pieces = self.load.basics.pieces.max(1);
        let most = most_carried(pieces, |at_once| {
            let centre = load_centre::of(self.load, LiftOf::Line, at_once, self.site);
            let weight = self.weight_of(line, at_once);
            trucks
                .takes(id, &self.demand(weight, &centre))
                .is_some_and(|takes| weight.fits(takes))
        });
        (most > 0).then_some(most)
    }

    /// The truck that the declared weight alone picks for one of so many lifts, and by how much that lift of a line of
    /// `line` goes above what it may take (0 when it does not).
    fn declared_truck(
        &self,
        line: Mass,
        lifts: u32,
        centre: &load_centre::Centre,
    ) -> Option<(String, Mass)> {
        let trucks = self.trucks?;
        let declared = self.per_lift(declared_gross(self.load)?, lifts);
        let demand = self.demand(declared, centre);
        let id = trucks.smallest(&demand).truck?.id;
        let takes = trucks.takes(&id, &demand)?;
        let lift = self.per_lift(line, lifts);
        let over = if lift.fits(takes) {
            Mass::ZERO
        } else {
            lift - takes
        };
        Some((id, over))
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
        let carried = most_carried(pieces - 1, |in_lift| adequate(in_lift).is_some());
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
        plan.across = centre.across;
        plan.tall = self.tall(&choice, &centre);
        plan.why_not = choice.why_not;
        plan.most_pieces = choice
            .truck
            .as_ref()
            .and_then(|truck| self.most_pieces(trucks, line, &truck.id));
        let demand = self.demand(lift, &centre);
        plan.takes = choice
            .truck
            .as_ref()
            .and_then(|truck| trucks.takes(&truck.id, &demand));
        plan.truck = choice.truck;
        plan.divided = true;
        plan.held.push(Hold::Divided);
        true
    }

    /// Half of the height above the load centre that the plate stands for.
    fn tall(&self, choice: &Choice, centre: &load_centre::Centre) -> bool {
        let plate = choice.truck.as_ref().map(|truck| truck.capacity.rated_at);
        plate
            .zip(centre.height)
            .is_some_and(|(plate, height)| !(height / 2.0).fits(plate))
    }
}
