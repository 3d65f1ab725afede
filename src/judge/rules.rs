//! The registry of all rules. Each rule is a file of this folder: explanation, check.

use super::Rule;

/// A rule's type whose documentation is also its explanation for people: one text, never two.
macro_rules! rule_type {
    ($(#[doc = $text:literal])+ pub struct $name:ident;) => {
        $(#[doc = $text])+
        pub struct $name;

        impl $name {
            /// The documentation above, as text.
            const EXPLANATION: &str = concat!($($text, "\n"),+);
        }
    };
}

mod close_call;
mod column_contradicted;
mod decided;
mod decision_not_taken_up;
mod declared_heavy;
mod declared_impossible;
mod declared_light;
mod declared_missing;
mod dense_for_packed_goods;
mod duplicate_line;
mod gross_below_net;
mod held;
mod lift_assumed;
mod lift_divided;
mod lifted_together;
mod line_total_differs;
mod load_centre_assumed;
mod long_load;
mod name_and_sizes_differ;
mod net_and_tare_differ;
mod no_planning_weight;
mod no_register;
mod no_truck;
mod over_road_limit;
mod piece_weights_differ;
mod reading_assumed;
mod reading_remark;
mod rule_off;
mod see_delivery;
mod sizes_impossible;
mod tall_load;
mod total_differs;
mod truck_overloaded;
mod unknown_material;
mod unlike_weighed_before;
mod unverifiable;
mod upper_bound_only;
mod volume_differs;
mod weights_copied_down;

/// All rules, by code.
pub static RULES: &[&dyn Rule] = &[
    &close_call::CloseCall,
    &column_contradicted::ColumnContradicted,
    &decided::Decided,
    &decision_not_taken_up::DecisionNotTakenUp,
    &declared_heavy::DeclaredHeavy,
    &declared_impossible::DeclaredImpossible,
    &declared_light::DeclaredLight,
    &declared_missing::DeclaredMissing,
    &dense_for_packed_goods::DenseForPackedGoods,
    &duplicate_line::DuplicateLine,
    &gross_below_net::GrossBelowNet,
    &held::Held,
    &lift_assumed::LiftAssumed,
    &lift_divided::LiftDivided,
    &lifted_together::LiftedTogether,
    &line_total_differs::LineTotalDiffers,
    &load_centre_assumed::LoadCentreAssumed,
    &long_load::LongLoad,
    &name_and_sizes_differ::NameAndSizesDiffer,
    &net_and_tare_differ::NetAndTareDiffer,
    &no_planning_weight::NoPlanningWeight,
    &no_register::NoRegister,
    &no_truck::NoTruck,
    &over_road_limit::OverRoadLimit,
    &piece_weights_differ::PieceWeightsDiffer,
    &reading_assumed::ReadingAssumed,
    &reading_remark::ReadingRemark,
    &rule_off::RuleOff,
    &see_delivery::SeeDelivery,
    &sizes_impossible::SizesImpossible,
    &tall_load::TallLoad,
    &total_differs::TotalDiffers,
    &truck_overloaded::TruckOverloaded,
    &unknown_material::UnknownMaterial,
    &unlike_weighed_before::UnlikeWeighedBefore,
    &unverifiable::Unverifiable,
    &upper_bound_only::UpperBoundOnly,
    &volume_differs::VolumeDiffers,
    &weights_copied_down::WeightsCopiedDown,
];
