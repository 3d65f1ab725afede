//! The kinds of cause in words: the slip, and the question that would settle it.

/// The slip that a cause stands for, as the people of the trade would say it.
pub fn slip(kind: &str) -> &str {
    match kind {
        "kg-lb" => "kilograms and pounds exchanged",
        "piece-for-line" => "the weight of one piece written for the whole line",
        "line-for-piece" => "the weight of the whole line written for one piece",
        "per-length" => "a weight per length written for the piece",
        "decimal" => "decimal point or comma misplaced",
        "ton-scale" => "tons and pounds or kilograms exchanged",
        "size-unit" => "sizes in another unit than stated",
        "solid-for-hollow" => "weighed up as solid though it is hollow",
        "net-for-gross" => "net and gross exchanged",
        "digits" => "digits exchanged, dropped or doubled",
        "material" => "another material than stated",
        "nominal-size" => "worked out with nominal instead of actual sizes",
        "quantity" => "another number of pieces",
        other => other,
    }
}

/// The question to ask the supplier about a cause.
pub fn question(kind: &str) -> &'static str {
    match kind {
        "kg-lb" => "is the weight in kilograms or in pounds?",
        "piece-for-line" | "line-for-piece" => {
            "is the weight that of one piece or of the whole line?"
        }
        "per-length" => "is the weight that of one metre or foot, or of the whole piece?",
        "decimal" => "where does the decimal point of the weight stand?",
        "ton-scale" => "is the weight in tons, and in which?",
        "size-unit" => "in which unit are the sizes?",
        "solid-for-hollow" => "is the piece hollow, and what is its wall?",
        "net-for-gross" => "is the weight net or gross?",
        "digits" => "can you read the weight out again, digit by digit?",
        "material" => "what is it made of?",
        "nominal-size" => "are the sizes nominal or actual?",
        "quantity" => "how many pieces does the weight stand for?",
        _ => "what does it weigh, and how was that found?",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The kinds are those of the contract; each has its own words and its own question.
    #[test]
    fn every_cause_kind_has_words_and_a_question() {
        for kind in [
            "kg-lb",
            "piece-for-line",
            "line-for-piece",
            "per-length",
            "decimal",
            "ton-scale",
            "size-unit",
            "solid-for-hollow",
            "net-for-gross",
            "digits",
            "material",
            "nominal-size",
            "quantity",
        ] {
            assert_ne!(slip(kind), kind);
            assert_ne!(question(kind), question("not a kind"), "{kind}");
        }
    }
}
