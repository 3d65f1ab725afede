//! What each decision needs, and what a load is planned with after it.

use super::Decision;
use super::evidence::says_more;
use crate::history::{DecisionKind, POSSIBLE_KG};
use crate::ledger::past::Past;
use crate::units::Mass;
use serde_json::Value;

/// The planning weight of the whole load after a decision; none where it is not lifted; or what stands against it.
pub(super) fn plan(decision: &Decision, load: &Past) -> Result<Option<Mass>, String> {
    if !decision.name.chars().any(char::is_alphabetic) {
        return Err("say who decides".to_string());
    }
    let weight = match (decision.weight, decision.kind.brings_weight()) {
        (Some(_), false) => {
            return Err(format!(
                "\"{}\" takes no weight; leave it out, or decide \"weighed\" or \"supplier corrected\"",
                decision.kind.words()
            ));
        }
        (weight, _) => weight,
    };
    let plan = match decision.kind {
        DecisionKind::Refused => return Ok(None),
        DecisionKind::AcceptDeclared => {
            taken_up(decision.kind, load).ok_or("it has no declared weight to accept")?
        }
        DecisionKind::UseEstimate => taken_up(decision.kind, load)
            .ok_or("it has no estimate to use; weigh it, or get its weight in writing")?,
        DecisionKind::Weighed | DecisionKind::SupplierCorrected => weight
            .filter(|weight| *weight > Mass::ZERO)
            .ok_or("it needs the weight of the whole line, above zero, such as \"2040 lb\"")?,
    };
    if !POSSIBLE_KG.contains(&plan.kg()) {
        return Err(format!(
            "no line weighs {} kg: write the weight of the whole line with its unit, such as \"2040 lb\"",
            plan.kg()
        ));
    }
    let low = load.record["estimate"]["low_kg"].as_f64();
    let why = if low.is_some_and(|low| plan.kg() < low) {
        "the plan would be below the least that it should weigh"
    } else if !load.shown.still_possible_kg.fits(plan) {
        "the plan would be below what it may weigh by another reading or by earlier weighings"
    } else if decision.kind.brings_weight() {
        "a weight of your own rests on something"
    } else {
        return Ok(Some(plan));
    };
    other_evidence(decision, load, why)?;
    Ok(Some(plan))
}

/// The weight of the load that a decision takes up, kg; none where it has none, or the decision brings its own.
pub(super) fn taken_up(kind: DecisionKind, load: &Past) -> Option<Mass> {
    match kind {
        DecisionKind::AcceptDeclared => load.shown.declared_kg,
        DecisionKind::UseEstimate => load.shown.estimate_kg,
        _ => None,
    }
}

/// Asks for evidence that is not the supplier's first document.
fn other_evidence(decision: &Decision, load: &Past, why: &str) -> Result<(), String> {
    let Some(evidence) = given(&decision.evidence) else {
        return Err(format!(
            "{why}: name evidence that is not the supplier's first document, such as \"scale ticket 4471\""
        ));
    };
    if !says_more(evidence, &load.file.0, &load.delivery) {
        return Err(format!(
            "{why}, and \"{evidence}\" says nothing or is the supplier's first document: name other evidence, such as a scale ticket or a corrected list"
        ));
    }
    Ok(())
}

/// A text that says something.
pub(super) fn given(text: &Option<String>) -> Option<&str> {
    text.as_deref()
        .map(str::trim)
        .filter(|text| !text.is_empty())
}

/// What a load would weigh if its first cause is of a kind.
fn would_be(record: &Value, cause: &str) -> Option<Mass> {
    let findings = record["findings"].as_array()?;
    let first = findings
        .iter()
        .map(|finding| &finding["cause"])
        .find(|cause| cause.is_object())?;
    let kg = first["would_be_kg"].as_f64()?;
    (first["kind"] == cause && kg > 0.0).then(|| Mass::from_kg(kg))
}

/// The same with the packaging that a declared weight without it is planned with.
pub(in crate::ledger) fn would_be_planned(load: &Past, cause: &str) -> Option<Mass> {
    let declared = load.record["declared"]["kg"].as_f64().map(Mass::from_kg);
    let tare = declared
        .zip(load.shown.declared_kg)
        .filter(|(declared, planned)| planned > declared)
        .map_or(Mass::ZERO, |(declared, planned)| planned - declared);
    Some(would_be(&load.record, cause)? + tare)
}
