//! What each decision needs, and what a load is planned with after it.

use super::Decision;
use super::evidence::says_more;
use crate::history::DecisionKind;
use crate::ledger::past::Past;
use crate::units::Mass;
use serde_json::Value;

/// The planning weight of the whole load after a decision; none where it is not lifted; or what stands against it.
pub(super) fn plan(decision: &Decision, load: &Past) -> Result<Option<Mass>, String> {
    if !decision.name.chars().any(char::is_alphabetic) {
        return Err("say who decides".to_string());
    }
    let record = &load.record;
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
        DecisionKind::AcceptDeclared => load
            .shown
            .declared_kg
            .ok_or("it has no declared weight to accept")?,
        DecisionKind::UseEstimate => load
            .shown
            .estimate_kg
            .ok_or("it has no estimate to use; weigh it, or get its weight in writing")?,
        DecisionKind::Weighed | DecisionKind::SupplierCorrected => weight
            .filter(|weight| *weight > Mass::ZERO)
            .ok_or("it needs the weight of the whole line, above zero, such as \"2040 lb\"")?,
    };
    let low = record["estimate"]["low_kg"].as_f64();
    if low.is_some_and(|low| plan.kg() < low) {
        other_evidence(decision, load)?;
    }
    Ok(Some(plan))
}

/// A plan below what it should weigh at least needs evidence that is not the supplier's first document.
fn other_evidence(decision: &Decision, load: &Past) -> Result<(), String> {
    let why = "the plan would be below the least that it should weigh";
    let Some(evidence) = given(&decision.evidence) else {
        return Err(format!(
            "{why}: name evidence that is not the supplier's first document, such as \"scale ticket 4471\""
        ));
    };
    if !says_more(evidence, &load.file.0, &load.delivery) {
        return Err(format!(
            "{why}, and \"{evidence}\" is the supplier's first document: name other evidence, such as a scale ticket or a corrected list"
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
