//! One line's goods as they are in truth, before anybody writes them down.

use super::random::Random;
use super::{flat, metal, mineral, packed, wood};

/// Families of goods, each with its own physics.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Family {
    ISection,
    Channel,
    Angle,
    HollowSection,
    RoundTube,
    Pipe,
    Plate,
    Sheet,
    Bar,
    Rebar,
    Rail,
    NonFerrous,
    LumberDry,
    LumberGreen,
    LumberTreated,
    LumberUnstated,
    Panel,
    Concrete,
    ConcretePipe,
    Stone,
    Glass,
    Drum,
    Bag,
    Cable,
    Casting,
    Machine,
}

use Family::*;

pub const FAMILIES: [Family; 26] = [
    ISection,
    Channel,
    Angle,
    HollowSection,
    RoundTube,
    Pipe,
    Plate,
    Sheet,
    Bar,
    Rebar,
    Rail,
    NonFerrous,
    LumberDry,
    LumberGreen,
    LumberTreated,
    LumberUnstated,
    Panel,
    Concrete,
    ConcretePipe,
    Stone,
    Glass,
    Drum,
    Bag,
    Cable,
    Casting,
    Machine,
];

impl Family {
    /// Sold by nominal inches, so in US lists.
    pub fn is_lumber(self) -> bool {
        self.is_wood() && self != Panel
    }

    pub fn is_wood(self) -> bool {
        matches!(
            self,
            LumberDry | LumberGreen | LumberTreated | LumberUnstated | Panel
        )
    }

    /// Goods of which only the outline is known.
    pub fn is_envelope(self) -> bool {
        matches!(self, Casting | Machine)
    }
}

/// Sizes of one piece as somebody would write them down, m.
#[derive(Clone, Copy, Debug, Default)]
pub struct Sizes {
    pub length: Option<f64>,
    pub width: Option<f64>,
    pub height: Option<f64>,
    pub outside: Option<f64>,
    pub inside: Option<f64>,
    pub wall: Option<f64>,
}

impl Sizes {
    /// All that are known, mm, for messages.
    pub fn in_mm(&self) -> String {
        let named = [
            ("l", self.length),
            ("w", self.width),
            ("h", self.height),
            ("od", self.outside),
            ("id", self.inside),
            ("wall", self.wall),
        ];
        let told = named
            .into_iter()
            .filter_map(|(name, size)| Some(format!("{name} {:.1}", size? * 1000.0)));
        told.collect::<Vec<_>>().join(" ")
    }
}

/// The goods of one line.
#[derive(Clone, Debug)]
pub struct Goods {
    pub family: Family,
    pub description: String,
    pub material: &'static str,
    pub pieces: u32,
    pub sizes: Sizes,
    /// What one piece weighs in the books, net, kg.
    pub book_kg: f64,
    /// What a piece weighs, in parts of the books.
    pub off: f64,
    /// Packaging of one piece that belongs to its gross weight, kg.
    pub tare_kg: f64,
    /// Length of one piece, m, of goods that are sold by the metre.
    pub long_m: Option<f64>,
    /// A solid bar of the outline, in parts of the books.
    pub solid: Option<f64>,
    /// Nominal instead of true section, in parts of the books.
    pub nominal: Option<f64>,
    /// Density, kg/m3, where the books were worked out from sizes.
    pub density: Option<f64>,
}

impl Goods {
    pub fn new(family: Family, description: impl Into<String>, pieces: u32, book_kg: f64) -> Goods {
        Goods {
            family,
            description: description.into(),
            material: "",
            pieces,
            sizes: Sizes::default(),
            book_kg,
            off: 1.0,
            tare_kg: 0.0,
            long_m: None,
            solid: None,
            nominal: None,
            density: None,
        }
    }

    /// What a scale would show for the whole line, kg.
    pub fn true_kg(&self) -> f64 {
        f64::from(self.pieces) * (self.book_kg * self.off + self.tare_kg)
    }

    /// The line in words, for messages.
    pub fn told(&self) -> String {
        let (name, sizes) = (&self.description, self.sizes.in_mm());
        format!(
            "{name} {sizes} x{}, true {:.1} kg",
            self.pieces,
            self.true_kg()
        )
    }
}

/// Makes one line of a family, named and sized as a supplier in the US or elsewhere does.
pub fn make(family: Family, random: &mut Random, us: bool) -> Goods {
    match family {
        ISection => metal::i_section(random, us),
        Channel => metal::channel(random, us),
        Angle => metal::angle(random, us),
        HollowSection => metal::hollow_section(random, us),
        RoundTube => metal::round_tube(random, us),
        Pipe => metal::pipe(random),
        Plate => flat::plate(random, us),
        Sheet => flat::sheet(random, us),
        Bar => metal::bar(random, us),
        Rebar => metal::rebar(random, us),
        Rail => metal::rail(random, us),
        NonFerrous => flat::non_ferrous(random, us),
        LumberDry | LumberGreen | LumberTreated | LumberUnstated => wood::lumber(family, random),
        Panel => wood::panel(random, us),
        Concrete => mineral::concrete(random, us),
        ConcretePipe => mineral::concrete_pipe(random, us),
        Stone => mineral::stone(random, us),
        Glass => mineral::glass(random, us),
        Drum => packed::drum(random),
        Bag => packed::bag(random, us),
        Cable => packed::cable(random),
        Casting => packed::casting(random, us),
        Machine => packed::machine(random, us),
    }
}
