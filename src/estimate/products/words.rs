//! Words of the trade that decide what a description is about, and above all what it is not about.
//! Comes in: one word, lower case. Goes out: its classes. Common practice, no source.

use std::collections::HashMap;
use std::sync::LazyLock;

/// A set of word classes.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Classes(u32);

impl Classes {
    /// A part that belongs to a product but is not one: clips, bolts, flanges.
    pub const ACCESSORY: Classes = Classes(1);
    /// Says that what follows is only what the goods are meant for.
    pub const RELATION: Classes = Classes(1 << 1);
    /// Something made from a product: heavier or lighter than its bare length.
    pub const MADE: Classes = Classes(1 << 2);
    /// Another substance than carbon steel.
    pub const FOREIGN: Classes = Classes(1 << 3);
    /// Plates: own product, but beside a section or a rail a part of it.
    pub const PLATE: Classes = Classes(1 << 4);
    /// Concrete reinforcing bar.
    pub const REBAR: Classes = Classes(1 << 5);
    /// Any bar.
    pub const BAR: Classes = Classes(1 << 6);
    /// Railway or crane rail.
    pub const RAIL: Classes = Classes(1 << 7);
    /// Pipe.
    pub const PIPE: Classes = Classes(1 << 8);
    /// Tube.
    pub const TUBE: Classes = Classes(1 << 9);
    /// Round.
    pub const ROUND: Classes = Classes(1 << 10);
    /// Wood, sawn.
    pub const LUMBER: Classes = Classes(1 << 11);
    /// Wood that is not dressed to the softwood standard.
    pub const UNDRESSED: Classes = Classes(1 << 12);
    /// Sheet goods for building.
    pub const PANEL: Classes = Classes(1 << 13);
    /// Zinc coated.
    pub const GALVANISED: Classes = Classes(1 << 14);
    /// Lined, coated or filled with something heavy.
    pub const LINED: Classes = Classes(1 << 15);
    /// Copper.
    pub const COPPER: Classes = Classes(1 << 16);
    /// Unplasticised PVC.
    pub const PVC: Classes = Classes(1 << 17);
    /// Ductile iron.
    pub const DUCTILE: Classes = Classes(1 << 18);
    /// Concrete.
    pub const CONCRETE: Classes = Classes(1 << 19);
    /// Steel, or a word for a steel shape.
    pub const STEEL: Classes = Classes(1 << 20);
    /// Green (unseasoned) wood.
    pub const GREEN: Classes = Classes(1 << 21);
    /// A bag or a sack.
    pub const BAG: Classes = Classes(1 << 22);
    /// A package of several.
    pub const PACKED: Classes = Classes(1 << 23);
    /// A drum or barrel.
    pub const DRUM: Classes = Classes(1 << 24);
    /// Part of a track that carries a rail's name without being a plain rail.
    pub const TRACK_PART: Classes = Classes(1 << 25);

    /// Whether it holds any of these.
    pub fn any(self, others: Classes) -> bool {
        self.0 & others.0 != 0
    }

    /// Adds classes.
    pub fn add(&mut self, others: Classes) {
        self.0 |= others.0;
    }

    /// Both sets.
    pub const fn and(self, others: Classes) -> Classes {
        Classes(self.0 | others.0)
    }
}

const WORDS: &[(Classes, &str)] = &[
    (
        Classes::ACCESSORY,
        "clip clips pad pads chair chairs anchor anchors bolt bolts fishbolt fishbolts screw screws nut nuts washer washers clamp \
         clamps bracket brackets fishplate fishplates flange flanges elbow elbows reducer reducers cap caps coupling couplings coupler \
         couplers union nipple nipples valve valves fitting fittings saddle saddles hanger hangers spacer spacers gasket gaskets insulator \
         insulators insulation insulated cover covers sleeve sleeves shim shims packer packers wedge wedges spike spikes screwspike kit kits \
         tool tools cutter bender lubricator brace braces shoe shoes hook hooks tie ties wire mesh fabric stirrup stirrups plug plugs stopper \
         connector connectors adapter adaptor bend bends socket sockets shackle turnbuckle stop stops buffer insert inserts rivet rivets pin \
         pins cotter dowels grease lamp motor pump reel switch crossing turnout frog joiner joiners splice strap straps trolley grinder saw drill \
         jack jacks tongs lifter thimble bushing bushings collar collars riser hinge hinges muffe muffen flansch flansche bogen klemme klemmen \
         mutter schraube schrauben bolzen unterlage coude coudes bride brides collier colliers raccord vis ecrou boulon brida bridas codo \
         tuerca perno pernos tornillo abrazadera abrazaderas staffa gomito",
    ),
    (
        Classes::RELATION,
        "for fits suit suits suitable für fuer pour para per voor dla till against",
    ),
    (
        Classes::MADE,
        "base assembly assy fabricated fabrication prefabricated weldment truss trusses frame frames gate gates stair stairs staircase handrail \
         railing ladder bollard castellated cellular tapered split halved cage cages trestle gantry spool spools manifold skid rack racks \
         stanchion scaffold encased filled composite",
    ),
    (
        Classes::FOREIGN,
        "aluminium aluminum alum alu aluminio alluminio stainless inox ss edelstahl inoxidable rostfrei brass bronze copper cu kupfer cuivre rame \
         cobre messing titanium ti lead zinc nickel magnesium al cast ductile malleable ghisa guss grauguss fonte fundicion frp grp gfrp fiberglass \
         fibreglass glasfaser plastic pvc cpvc upvc hdpe pe ldpe pp abs ptfe nylon acetal rubber epdm neoprene foam wood timber lumber oak \
         concrete béton beton hormigón hormigon cemento cement clay vitrified cardboard paper polyethylene polypropylene pex",
    ),
    (
        Classes::PLATE,
        "plate plates baseplate baseplates sheet sheets blech tôle chapa piastra",
    ),
    (
        Classes::REBAR,
        "rebar rebars deformed reinforcing reinforcement reinf reo betonstahl bewehrungsstahl bewehrung betonstaal armatura tondino corrugada corrugado \
         armierung",
    ),
    (Classes::BAR, "bar bars"),
    (
        Classes::RAIL,
        "rail rails schiene schienen riel rieles rotaia rotaie spoorstaaf szyna",
    ),
    (Classes::PIPE, "pipe pipes piping nps linepipe"),
    (
        Classes::TUBE,
        "tube tubes tubing tubo tubos rohr rohre tuyau tuyaux",
    ),
    (
        Classes::ROUND,
        "od dia diameter round seamless smls nahtlos circular chs erw rund rundrohr redondo rond tondo",
    ),
    (
        Classes::LUMBER,
        "lumber timber timbers spruce pine fir spf syp hemlock hem cedar redwood larch df doug douglas stud studs joist joists softwood",
    ),
    (
        Classes::UNDRESSED,
        "rough rgh sawn hewn resawn oak hardwood ash maple sleeper sleepers crosstie crossties dunnage cribbing mat mats glulam lvl lsl psl \
         laminated fingerjoint live log logs log moulding molding trim decking flooring siding full actual metric",
    ),
    (
        Classes::PANEL,
        "plywood ply osb gypsum drywall plasterboard gwb mdf particleboard chipboard hardboard sheathing",
    ),
    (
        Classes::GALVANISED,
        "galv galvanised galvanized gal hdg hdgalv verzinkt galvanisé galvanizado zincato zn",
    ),
    (
        Classes::LINED,
        "lined lining coated fbe clad cladding insulated preinsulated jacketed weighted",
    ),
    (Classes::COPPER, "copper"),
    (Classes::PVC, "pvc upvc"),
    (Classes::DUCTILE, "ductile dip"),
    (Classes::CONCRETE, "concrete rcp"),
    (
        Classes::STEEL,
        "steel metal beam beams channel channels angle angles tube tubes pipe pipes plate plates bar bars flat sheet iron stl girder column \
         purlin hss rhs shs chs galv galvanised galvanized stahl acier acero acciaio aluminium aluminum brass copper stainless pvc",
    ),
    (Classes::GREEN, "green grn sgrn"),
    (
        Classes::BAG,
        "bag bags sack sacks säcke saecke sac sacs saco sacos sacco sacchi zak zakken worek worki beutel",
    ),
    (
        Classes::PACKED,
        "pallet pallets palette paletten palettes palet palets paleta palety bancale bancali skid skids plt crate crates bundle bundles carton cartons ctn ctns case cases tote totes supersack",
    ),
    (
        Classes::DRUM,
        "drum drums barrel barrels drm drms fass fässer faesser fût fûts fusto fusti bidón bidones tambor tambores beczka",
    ),
    (
        Classes::TRACK_PART,
        "joint joints stock points point check guard glued post car welding weld anchor support seat end din",
    ),
];

static INDEX: LazyLock<HashMap<&'static str, Classes>> = LazyLock::new(|| {
    let mut index: HashMap<&'static str, Classes> = HashMap::new();
    for (class, words) in WORDS {
        for word in words.split_whitespace() {
            index.entry(word).or_default().add(*class);
        }
    }
    index
});

/// The classes of a word; empty for one that says nothing.
pub fn classes(word: &str) -> Classes {
    INDEX.get(word).copied().unwrap_or_default()
}
