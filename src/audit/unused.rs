//! Settings of the site that made no difference to a call: a slip of the pen there would otherwise go unseen.

use super::{Audit, Line};
use crate::estimate::Estimate;

/// The settings that matched nothing, each with its key in the site file and what was not found.
pub(super) fn settings(audit: &Audit) -> Vec<(String, &'static str)> {
    let site = &audit.site;
    let lines = || audit.deliveries.iter().flat_map(|one| &one.lines);
    let estimated = |wanted: &dyn Fn(&Estimate) -> bool| {
        lines().any(|line| line.estimate.as_ref().is_ok_and(wanted))
    };
    let of_kind = |kind: &str| {
        let goods = |line: &Line| match &line.estimate {
            Ok(estimate) => estimate.goods,
            Err(no) => no.goods,
        };
        lines().any(|line| goods(line) == Some(kind) || line.item.packed_as == Some(kind))
    };
    let mut unused = Vec::new();
    for group in site.tolerance_by_group.keys() {
        if !estimated(&|estimate| estimate.group == Some(group.as_str())) {
            let why = "no line of this call is of that group";
            unused.push((format!("tolerance_by_group.{group}"), why));
        }
    }
    for kind in site.attachment_by_goods.keys() {
        if !of_kind(kind) {
            let why = "no line of this call is of that kind of goods";
            unused.push((format!("attachment_by_goods.{kind}"), why));
        }
    }
    for material in &site.material {
        if !estimated(&|estimate| {
            estimate
                .material
                .is_some_and(|one| one.name == material.name)
        }) {
            let why = "no line of this call is of that material";
            unused.push((format!("material.{}", material.name), why));
        }
    }
    for name in site.supplier.keys() {
        let read = |one: &super::Delivery| one.reading.supplier.as_deref() == Some(name);
        if !audit.deliveries.iter().any(read) {
            let why = "no list of this call was read with that layout";
            unused.push((format!("supplier.{name}"), why));
        }
    }
    for code in site.rules_off.keys() {
        if !audit
            .deliveries
            .iter()
            .any(|one| one.off.contains_key(code.as_str()))
        {
            let why = "it would have found nothing in this call";
            unused.push((format!("rules_off.{code}"), why));
        }
    }
    unused
}
