//! Weights alone in a cell. Spellings: common practice, no source; units: NIST Handbook 44, Appendix C.

use crate::units::MassUnit::{self, CwtUk, CwtUs, G, Kg, Lb, LongTon, Oz, ShortTon, Tonne};
use crate::units::spelling::MassSpelling::{self, Cwt, Ton};
use crate::units::written::Decimal::{self, Comma, Mixed, Point, Unclear};
use crate::units::written::{MassText, Of, mass};

/// Text, decimal habit, figure, unit beside it.
type Row = (&'static str, Decimal, f64, Option<MassUnit>);

const KILOGRAMS: &[Row] = &[
    ("450kg", Unclear, 450.0, Some(Kg)),
    ("450 KG", Unclear, 450.0, Some(Kg)),
    ("450 Kg.", Unclear, 450.0, Some(Kg)),
    ("1,020 KGS", Point, 1_020.0, Some(Kg)),
    ("1.020 KGS", Comma, 1_020.0, Some(Kg)),
    ("450 kgs.", Unclear, 450.0, Some(Kg)),
    ("450 KG/KGS", Unclear, 450.0, Some(Kg)),
    ("450 kilos", Unclear, 450.0, Some(Kg)),
    ("450 kilograms", Unclear, 450.0, Some(Kg)),
    ("450公斤", Unclear, 450.0, Some(Kg)),
    ("450 千克", Unclear, 450.0, Some(Kg)),
    ("450キロ", Unclear, 450.0, Some(Kg)),
    ("450 кг", Unclear, 450.0, Some(Kg)),
    ("４５０ＫＧ", Unclear, 450.0, Some(Kg)),
    ("kg 450", Unclear, 450.0, Some(Kg)),
    ("Kg. 1.250,5", Unclear, 1_250.5, Some(Kg)),
    ("Weight: 450 kg", Unclear, 450.0, Some(Kg)),
    ("1,234.5 kg (2,721.6 lb)", Unclear, 1_234.5, Some(Kg)),
    ("454 kg / 1,001 lbs", Point, 454.0, Some(Kg)),
    ("450 KGM", Unclear, 450.0, Some(Kg)),
    ("450 KG'S", Unclear, 450.0, Some(Kg)),
    ("450 kilogramos", Unclear, 450.0, Some(Kg)),
    ("450 кг.", Unclear, 450.0, Some(Kg)),
    ("٤٥٠ kg", Unclear, 450.0, Some(Kg)),
    ("1\u{202f}234,5 kg", Unclear, 1_234.5, Some(Kg)),
    ("1'234.5 kg", Unclear, 1_234.5, Some(Kg)),
    ("450 gm", Unclear, 450.0, Some(G)),
    ("450 grams", Unclear, 450.0, Some(G)),
];

const TONNES: &[Row] = &[
    ("0.92 t", Point, 0.92, Some(Tonne)),
    ("0,92 t", Comma, 0.92, Some(Tonne)),
    ("12.5 MT", Point, 12.5, Some(Tonne)),
    ("12.5mt", Point, 12.5, Some(Tonne)),
    ("12.5 M/T", Point, 12.5, Some(Tonne)),
    ("12.5 M.T.", Point, 12.5, Some(Tonne)),
    ("1,25 to", Comma, 1.25, Some(Tonne)),
    ("1,25 to.", Comma, 1.25, Some(Tonne)),
    ("3 tonnes", Unclear, 3.0, Some(Tonne)),
    ("3 metric tons", Unclear, 3.0, Some(Tonne)),
    ("3吨", Unclear, 3.0, Some(Tonne)),
    ("3トン", Unclear, 3.0, Some(Tonne)),
    ("1½ t", Unclear, 1.5, Some(Tonne)),
    ("12.5 Tm", Point, 12.5, Some(Tonne)),
    ("12.5 TNE", Point, 12.5, Some(Tonne)),
    ("12.5 metric tonnes", Point, 12.5, Some(Tonne)),
    ("2,5 тонн", Comma, 2.5, Some(Tonne)),
    ("1/2 t", Unclear, 0.5, Some(Tonne)),
    ("1.2 STN", Point, 1.2, Some(ShortTon)),
    ("1.2 short tons", Point, 1.2, Some(ShortTon)),
    ("1.2 net tons", Point, 1.2, Some(ShortTon)),
    ("1.2 US tons", Point, 1.2, Some(ShortTon)),
    ("1.2 long tons", Point, 1.2, Some(LongTon)),
    ("1.2 gross tons", Point, 1.2, Some(LongTon)),
];

const POUNDS: &[Row] = &[
    ("1846#", Unclear, 1_846.0, Some(Lb)),
    ("39,767 #", Point, 39_767.0, Some(Lb)),
    ("850 lb", Unclear, 850.0, Some(Lb)),
    ("850LBS", Unclear, 850.0, Some(Lb)),
    ("850 lbs.", Unclear, 850.0, Some(Lb)),
    ("850 lbm", Unclear, 850.0, Some(Lb)),
    ("850 pounds", Unclear, 850.0, Some(Lb)),
    ("Lbs. 850", Unclear, 850.0, Some(Lb)),
    ("5 1/2 lb", Unclear, 5.5, Some(Lb)),
    ("3/4 lb", Unclear, 0.75, Some(Lb)),
    ("1,234.50 LB", Unclear, 1_234.5, Some(Lb)),
    ("1,234.50LB", Unclear, 1_234.5, Some(Lb)),
    ("850 LBR", Unclear, 850.0, Some(Lb)),
    ("850 lb's", Unclear, 850.0, Some(Lb)),
    ("12 oz", Unclear, 12.0, Some(Oz)),
    ("12 ounces", Unclear, 12.0, Some(Oz)),
    ("18 CWA", Unclear, 18.0, Some(CwtUs)),
    ("18 CWI", Unclear, 18.0, Some(CwtUk)),
];

const BARE: &[Row] = &[
    ("16,359.30", Unclear, 16_359.3, None),
    ("1.200,5", Unclear, 1_200.5, None),
    ("1 200,5", Unclear, 1_200.5, None),
    ("1\u{a0}200,5", Unclear, 1_200.5, None),
    ("1\u{202f}200", Unclear, 1_200.0, None),
    ("1\u{2009}200", Unclear, 1_200.0, None),
    ("1\u{2007}200", Unclear, 1_200.0, None),
    ("1\u{3000}200", Unclear, 1_200.0, None),
    (" 1200\u{a0}", Unclear, 1_200.0, None),
    ("1'200.5", Unclear, 1_200.5, None),
    ("1’234’567", Unclear, 1_234_567.0, None),
    ("12,50,000", Unclear, 1_250_000.0, None),
    ("1,23,456.7", Unclear, 123_456.7, None),
    ("1.234.567", Unclear, 1_234_567.0, None),
    ("１２０．５", Unclear, 120.5, None),
    ("5,5", Point, 5.5, None),
    ("0,125", Point, 0.125, None),
    ("1,200", Point, 1_200.0, None),
    ("1.200", Comma, 1_200.0, None),
    ("'30", Unclear, 30.0, None),
    ("450.", Unclear, 450.0, None),
    ("450*", Unclear, 450.0, None),
    ("+450", Unclear, 450.0, None),
];

#[test]
fn weights_in_cells() {
    for (text, habit, value, expected) in KILOGRAMS.iter().chain(TONNES).chain(POUNDS).chain(BARE) {
        match mass(text, *habit) {
            MassText::Figure { figure, unit, .. } => {
                assert!(
                    (figure.value - value).abs() < 1e-9,
                    "{text}: {}",
                    figure.value
                );
                assert_eq!(unit, expected.map(MassSpelling::Known), "{text}");
                assert!(!figure.unclear, "{text} can be read in one way only");
            }
            other => panic!("{text}: {other:?}"),
        }
    }
}

/// A ton is 2,000 lb in a US file and 1,000 kg in a metric one, a hundredweight 100 lb or 112 lb: the cell alone does
/// not tell.
#[test]
fn tons_and_hundredweights_depend_on_the_country() {
    for (text, spelled) in [
        ("0.92 T", Ton),
        ("0.92 tn", Ton),
        ("2 tons", Ton),
        ("2 TON", Ton),
        ("18.5 cwt", Cwt),
        ("18.5 CWTS", Cwt),
        ("18.5 cwt.", Cwt),
    ] {
        match mass(text, Point) {
            MassText::Figure { unit, .. } => assert_eq!(unit, Some(spelled), "{text}"),
            other => panic!("{text}: {other:?}"),
        }
        assert_eq!(spelled.unit(None), None);
    }
}

#[test]
fn weights_that_can_be_read_in_two_ways_say_so() {
    // The heavier reading counts until it is asked for.
    for (text, heavier) in [
        ("1,200", 1_200.0),
        ("1.200", 1_200.0),
        ("1,020 kg", 1_020.0),
        ("12,500 lbs", 12_500.0),
        ("approx. 1.250 kg", 1_250.0),
        ("@1,012", 1_012.0),
    ] {
        for habit in [Unclear, Mixed] {
            match mass(text, habit) {
                MassText::Figure { figure, .. } => {
                    assert_eq!((figure.value, figure.unclear), (heavier, true), "{text}");
                }
                other => panic!("{text}: {other:?}"),
            }
        }
    }
}

/// Text; approximate; of what; gross.
const BESIDE: &[(&str, bool, Option<Of>, Option<bool>)] = &[
    ("approx. 450", true, None, None),
    ("approx 450 kg", true, None, None),
    ("ca. 450 kg", true, None, None),
    ("ca 450", true, None, None),
    ("circa 450", true, None, None),
    ("abt. 450kg", true, None, None),
    ("about 450 lbs", true, None, None),
    ("~450", true, None, None),
    ("≈ 450", true, None, None),
    ("env. 450 kg", true, None, None),
    ("aprox. 450 kg", true, None, None),
    ("etwa 450 kg", true, None, None),
    ("约450公斤", true, None, None),
    ("c. 450 kg", true, None, None),
    ("zirka 450", true, None, None),
    ("ungef. 450 kg", true, None, None),
    ("+/- 450 kg", true, None, None),
    ("450 kg (est.)", true, None, None),
    ("450 kg approx.", true, None, None),
    ("@25.3", false, Some(Of::Package), None),
    ("@ 25.3 kg", false, Some(Of::Package), None),
    ("450 kg each", false, Some(Of::Piece), None),
    ("450 kg ea.", false, Some(Of::Piece), None),
    ("450 kg/pc", false, Some(Of::Piece), None),
    ("450 lbs per piece", false, Some(Of::Piece), None),
    ("25.3 kg/ctn", false, Some(Of::Package), None),
    ("450 kg total", false, Some(Of::Line), None),
    ("1,234.5 kg gross", false, None, Some(true)),
    ("1,234.5 KGS G.W.", false, None, Some(true)),
    ("1,234.5 kg (net)", false, None, Some(false)),
    ("N.W. 450 kg", false, None, Some(false)),
    ("Gross: 450", false, None, Some(true)),
    ("450 kg brutto", false, None, Some(true)),
    ("450 kg 毛重", false, None, Some(true)),
];

#[test]
fn words_beside_weights() {
    for (text, about, whose, with_packing) in BESIDE {
        match mass(text, Point) {
            MassText::Figure {
                figure,
                approximate,
                of,
                gross,
                ..
            } => {
                assert!(
                    figure.value > 25.0 && figure.value < 1_235.0,
                    "{text}: {}",
                    figure.value
                );
                assert_eq!(
                    (approximate, of, gross),
                    (*about, *whose, *with_packing),
                    "{text}"
                );
            }
            other => panic!("{text}: {other:?}"),
        }
    }
}
