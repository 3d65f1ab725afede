//! What a column holds.

/// What a column holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Field {
    /// Line number.
    LineNo,
    /// Item or part number.
    Item,
    /// Piece mark.
    Mark,
    /// Description.
    Description,
    /// Material or grade.
    Material,
    /// Number of pieces.
    Quantity,
    /// Pieces in one package.
    QuantityPerPackage,
    /// Unit of the quantity.
    Unit,
    /// Number of packages.
    Packages,
    /// Kind of package.
    PackageType,
    /// Number or name of a package.
    PackageId,
    /// Length.
    Length,
    /// Width.
    Width,
    /// Height.
    Height,
    /// Depth, until the other size columns tell which size it is.
    Depth,
    /// Thickness.
    Thickness,
    /// Outside diameter.
    Outside,
    /// Inside diameter.
    Inside,
    /// Wall thickness.
    Wall,
    /// Inches that go on from the feet of another column.
    Inches,
    /// Several sizes in one cell.
    Size,
    /// Volume.
    Volume,
    /// Weight.
    Weight,
    /// Tare.
    Tare,
    /// Unit of the weights.
    WeightUnit,
    /// Unit of the sizes.
    SizeUnit,
    /// Number of the delivery.
    Delivery,
    /// Purchase order.
    Order,
    /// Supplier.
    Supplier,
    /// Vehicle or container.
    Vehicle,
    /// Remarks.
    Remarks,
    /// Lift height.
    LiftHeight,
    /// Known and of no use here.
    NotUsed,
}

impl Field {
    /// A size column.
    pub fn is_size(self) -> bool {
        matches!(
            self,
            Field::Length
                | Field::Width
                | Field::Height
                | Field::Depth
                | Field::Thickness
                | Field::Outside
                | Field::Inside
                | Field::Wall
                | Field::Size
                | Field::LiftHeight
        )
    }

    /// A column of figures.
    pub fn is_figure(self) -> bool {
        self.is_size()
            || matches!(
                self,
                Field::Weight | Field::Quantity | Field::Volume | Field::Tare | Field::Packages
            )
    }

    /// Its name in plain words.
    pub fn name(self) -> &'static str {
        match self {
            Field::LineNo => "line number",
            Field::Item => "item number",
            Field::Mark => "piece mark",
            Field::Description => "description",
            Field::Material => "material or grade",
            Field::Quantity => "number of pieces",
            Field::QuantityPerPackage => "pieces in one package",
            Field::Unit => "unit of the quantity",
            Field::Packages => "number of packages",
            Field::PackageType => "kind of package",
            Field::PackageId => "package number",
            Field::Length => "length",
            Field::Width => "width",
            Field::Height => "height",
            Field::Depth => "depth",
            Field::Thickness => "thickness",
            Field::Outside => "outside diameter",
            Field::Inside => "inside diameter",
            Field::Wall => "wall thickness",
            Field::Inches => "inches that go with the feet before them",
            Field::Size => "sizes",
            Field::Volume => "volume",
            Field::Weight => "declared weight",
            Field::Tare => "tare",
            Field::WeightUnit => "unit of the weights",
            Field::SizeUnit => "unit of the sizes",
            Field::Delivery => "delivery number",
            Field::Order => "purchase order",
            Field::Supplier => "supplier",
            Field::Vehicle => "vehicle or container",
            Field::Remarks => "remarks",
            Field::LiftHeight => "lift height",
            Field::NotUsed => "not used",
        }
    }
}
