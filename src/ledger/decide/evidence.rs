//! Whether a text names evidence that is not the supplier's first document. When in doubt it does not.

/// Words that name nothing but the supplier's own paper, in the singular (common practice, no source).
const FIRST_DOCUMENT: &str = "advice bill bol cmr consignment consignor copy csv declaration declared delivery despatch dispatch \
    doc document excel file first html invoice lading list manifest note ods original packing paper paperwork pdf printed proforma \
    sender sheet shipment shipper shipping slip spreadsheet supplier table tsv txt vendor waybill xls xlsx workbook written";
/// Words that say nothing, or that there is nothing (common practice, no source).
const NOTHING: &str = "above all and any applicable are available before below but can cannot checked confirmed correct could \
    does evidence existing fine for found from further given good has have hand its known lack later like missing more needed neither nil \
    nobody none nor not nothing null number okay only other our own pending per please proof provided reason received requested required \
    right safe same say see seen should sure tba tbd tbc test that the their there these they this trust trusted unavailable \
    unknown unspecified usual various verified was were what which will with without would yes yet you your";
/// Words for what is in the list, and days: the list says them itself (common practice, no source).
const OF_THE_LIST: &str = "cell column date dated figure goods gross item kilogram line load mass net order page piece position pound row \
    stated total value weight january february march april may june july august september october november december \
    jan feb mar apr jun jul aug sep sept oct nov dec monday tuesday wednesday thursday friday saturday sunday today yesterday";

/// Whether a text names anything but the supplier's first document: the delivery's list, of that file name.
pub(in crate::ledger) fn says_more(evidence: &str, file: &str, delivery: &str) -> bool {
    let said = words(evidence);
    let stem = file.rsplit_once('.').map_or(file, |(stem, _)| stem);
    let (stem, delivery) = (words(stem), words(delivery));
    let mut rest = said.as_slice();
    while let Some((word, after)) = rest.split_first() {
        if !stem.is_empty() && rest.starts_with(&stem) {
            rest = &rest[stem.len()..];
        } else if says_nothing(word) || delivery.contains(word) {
            rest = after;
        } else {
            return true;
        }
    }
    false
}

fn words(text: &str) -> Vec<String> {
    let lower = text.to_lowercase();
    let words = lower.split(|sign: char| !sign.is_alphanumeric());
    words
        .filter(|word| !word.is_empty())
        .map(str::to_string)
        .collect()
}

fn says_nothing(word: &str) -> bool {
    // Single letters and bare figures ("supplier's", "D-1") name nothing.
    if word.chars().filter(|sign| sign.is_alphabetic()).count() < 3 {
        return true;
    }
    let plural = |known: &str| {
        let ending = word.strip_prefix(known);
        let copies = known.strip_suffix('y').and_then(|y| word.strip_prefix(y));
        matches!(ending, Some("" | "s")) || copies == Some("ies")
    };
    [FIRST_DOCUMENT, NOTHING, OF_THE_LIST]
        .iter()
        .any(|list| list.split_whitespace().any(plural))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// What is said for a plan below the least, and whether it is taken.
    #[test]
    fn the_suppliers_first_document_is_no_evidence_against_itself() {
        for (evidence, other) in [
            ("scale ticket 4471", true),
            ("corrected list of 25 Nov", true),
            ("mill certificate", true),
            ("larkspur-40271 scale ticket 4471", true),
            ("weighbridge, gate 2", true),
            ("the supplier's e-mail", true),
            ("letter of the mill, 3 June", true),
            ("", false),
            ("none", false),
            ("no evidence", false),
            ("unknown", false),
            ("not available", false),
            ("n/a", false),
            ("nil", false),
            ("packing list", false),
            ("packing lists", false),
            ("packing list of 25 Nov", false),
            ("the supplier's packing list", false),
            ("the shipper's invoice", false),
            ("copies of the invoices", false),
            ("spreadsheet", false),
            ("declared weight on the list", false),
            ("delivery note D-1", false),
            ("bill of lading no. 4471", false),
            ("larkspur-40271.xlsx", false),
            ("as in LARKSPUR-40271, checked", false),
            ("40271", false),
        ] {
            let found = says_more(evidence, "larkspur-40271.xlsx", "40271");
            assert_eq!(found, other, "{evidence}");
        }
    }

    /// A supplier's name in the file's name says nothing against what stands beside it.
    #[test]
    fn the_files_name_is_left_out_and_the_rest_counts() {
        for (evidence, other) in [
            ("larkspur scale ticket 4471", true),
            ("larkspur", false),
            ("larkspur.csv", false),
            ("larkspur list", false),
        ] {
            let found = says_more(evidence, "larkspur.csv", "larkspur");
            assert_eq!(found, other, "{evidence}");
        }
    }
}
