//! Names in the site file that stand for something in the tables: groups, kinds of goods and of slips, a country, a place.

use super::file::{Refused, within};
use super::{Site, supplier};
use crate::tables::register_headings::{fold, meaning};
use crate::tables::{goods, materials, priors, road_limits};

/// Refuses names that no table has, with the nearest known one.
pub(super) fn check(site: &Site) -> Result<(), Refused> {
    groups(site)?;
    country(site)?;
    priors(site)?;
    attachments(site)?;
    place(site)
}

/// The tolerances of groups: figures in their bounds, groups that materials have.
fn groups(site: &Site) -> Result<(), Refused> {
    let known = materials::groups();
    for (group, value) in &site.tolerance_by_group {
        let key = format!("tolerance_by_group.\"{group}\"");
        if !known.contains(&group.as_str()) {
            return Err((
                format!("{key}: no material is of that group"),
                format!(
                    "the nearest group is \"{}\"; the groups are {}",
                    supplier::nearest(group, &known),
                    known.join(", ")
                ),
            ));
        }
        let part = "of the weight, such as 0.15 for 15 %";
        within(&key, *value, 0.0, 0.5, part)?;
    }
    Ok(())
}

/// Kinds of slip that the table of priors has, with shares that leave room for the others.
fn priors(site: &Site) -> Result<(), Refused> {
    let known = priors::kinds();
    for (kind, prior) in &site.priors {
        let key = format!("priors.\"{kind}\"");
        if !known.contains(&kind.as_str()) {
            return Err((
                format!("{key}: no kind of slip has that name"),
                format!(
                    "the nearest is \"{}\"; the kinds are {}",
                    supplier::nearest(kind, &known),
                    known.join(", ")
                ),
            ));
        }
        let share = "of all mismatches; how the shares add up does not matter";
        within(&key, *prior, 0.001, 1.0, share)?;
    }
    Ok(())
}

/// A country whose limit for road vehicles is known.
fn country(site: &Site) -> Result<(), Refused> {
    let named = site.country.as_deref();
    if named.is_none() || road_limits::of(named).is_some() {
        return Ok(());
    }
    let known: Vec<&str> = road_limits::all()
        .iter()
        .map(|limit| limit.country.as_str())
        .collect();
    Err((
        format!(
            "country = \"{}\": its limit for road vehicles is not known",
            named.unwrap_or_default()
        ),
        format!(
            "write one of {}, or take the key out for the highest of their limits",
            known.join(", ")
        ),
    ))
}

/// Attachments by kind of goods: kinds that the program knows, each with a name as the register has it.
fn attachments(site: &Site) -> Result<(), Refused> {
    let known: Vec<&str> = goods::all()
        .iter()
        .map(|goods| goods.name.as_str())
        .collect();
    for (kind, attachment) in &site.attachment_by_goods {
        if !known.contains(&kind.as_str()) {
            return Err((
                format!("attachment_by_goods.\"{kind}\": no kind of goods has that name"),
                format!(
                    "the nearest is \"{}\"; the kinds are {}",
                    supplier::nearest(kind, &known),
                    known.join(", ")
                ),
            ));
        }
        if attachment.trim().is_empty() {
            return Err((
                format!("attachment_by_goods.\"{kind}\" is empty"),
                "name the attachment as the register does, or take the key out".to_string(),
            ));
        }
    }
    Ok(())
}

/// Where trucks must be allowed to work: words that mean indoor, outdoor or both, or several with a comma between them.
fn place(site: &Site) -> Result<(), Refused> {
    let Some(place) = &site.place else {
        return Ok(());
    };
    let known = |word: &str| meaning("place", &fold(word)).is_some();
    let mut parts = place.split([',', ';', '/', '+', '&', '\n']);
    match parts.find(|part| !known(part)) {
        Some(part) if !known(place) => Err((
            format!("place = \"{place}\": \"{}\" is no place that is known", part.trim()),
            "write \"indoor\", \"outdoor\" or \"both\", or take the key out if every truck may come".to_string(),
        )),
        _ => Ok(()),
    }
}
