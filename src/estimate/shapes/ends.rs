//! Ends of a tank: how deep, how much they hold, how wide they are at each depth.

use std::f64::consts::PI;

/// Form of a tank's end.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Ends {
    /// A disc.
    Flat,
    /// A crown of one radius and a knuckle of another, each as a part of the inside diameter.
    Torispherical {
        /// Radius of the crown.
        crown: f64,
        /// Radius of the knuckle.
        knuckle: f64,
    },
    /// Half of an ellipsoid, a quarter of the diameter deep (2 : 1).
    Elliptical,
    /// Half of a sphere.
    Hemispherical,
}

impl Ends {
    /// What "dished" alone is taken as: crown radius the diameter, knuckle a tenth of it (DIN 28011, from memory). The
    /// flattest in use has a knuckle of 6 % (ASME BPVC VIII-1, from memory), the deepest dished one is the elliptical.
    pub const DISHED: Ends = Ends::Torispherical {
        crown: 1.0,
        knuckle: 0.1,
    };
    /// The flattest dished end.
    pub(crate) const FLATTEST: Ends = Ends::Torispherical {
        crown: 1.0,
        knuckle: 0.06,
    };

    /// Crown, knuckle and knuckle's circle from the axis for a diameter, m.
    fn radii(self, d: f64) -> Option<(f64, f64, f64)> {
        match self {
            Ends::Torispherical { crown, knuckle } => {
                Some((crown * d, knuckle * d, d / 2.0 - knuckle * d))
            }
            _ => None,
        }
    }

    /// Depth inside, m, of a tank of inside diameter `d`.
    pub fn depth(self, d: f64) -> f64 {
        match self {
            Ends::Flat => 0.0,
            Ends::Torispherical { .. } => self
                .radii(d)
                .map_or(0.0, |(crown, knuckle, _)| tori_depth(d, crown, knuckle)),
            Ends::Elliptical => d / 4.0,
            Ends::Hemispherical => d / 2.0,
        }
    }

    /// Volume inside one end, m3.
    pub fn volume(self, d: f64) -> f64 {
        match self {
            Ends::Flat => 0.0,
            Ends::Torispherical { .. } => self
                .radii(d)
                .map_or(0.0, |(crown, knuckle, _)| tori_volume(d, crown, knuckle)),
            Ends::Elliptical => PI / 24.0 * d.powi(3),
            Ends::Hemispherical => PI / 12.0 * d.powi(3),
        }
    }

    /// Volume of the material of one end of wall `t`, m3; a flat one lies within the shell.
    pub fn material(self, d: f64, t: f64) -> f64 {
        let outside = d + 2.0 * t;
        match self {
            Ends::Flat => PI / 4.0 * d * d * t,
            // Crown and knuckle each have the wall outside their radius.
            Ends::Torispherical { .. } => self.radii(d).map_or(0.0, |(crown, knuckle, _)| {
                tori_volume(outside, crown + t, knuckle + t) - self.volume(d)
            }),
            Ends::Elliptical => PI / 6.0 * outside * outside * (d / 4.0 + t) - self.volume(d),
            Ends::Hemispherical => self.volume(outside) - self.volume(d),
        }
    }

    /// Radius inside at the depth `x` from where the end begins, m.
    pub fn radius_at(self, d: f64, x: f64) -> f64 {
        let r = d / 2.0;
        let half_ellipse = |depth: f64| r * (1.0 - (x / depth).powi(2)).max(0.0).sqrt();
        match self {
            Ends::Flat => r,
            Ends::Elliptical => half_ellipse(d / 4.0),
            Ends::Hemispherical => half_ellipse(r),
            Ends::Torispherical { .. } => self.radii(d).map_or(r, |(crown, knuckle, c)| {
                let below = crown - tori_depth(d, crown, knuckle);
                if x < knuckle * below / (crown - knuckle) {
                    c + (knuckle * knuckle - x * x).max(0.0).sqrt()
                } else {
                    (crown * crown - (x + below).powi(2)).max(0.0).sqrt()
                }
            }),
        }
    }
}

/// Depth of a torispherical end (geometry: the crown touches the knuckle).
fn tori_depth(d: f64, crown: f64, knuckle: f64) -> f64 {
    crown - ((crown - d / 2.0) * (crown + d / 2.0 - 2.0 * knuckle)).sqrt()
}

/// Volume of a torispherical end: the crown's cap and the knuckle's solid of revolution.
fn tori_volume(d: f64, crown: f64, knuckle: f64) -> f64 {
    let c = d / 2.0 - knuckle;
    let h = tori_depth(d, crown, knuckle);
    let below = crown - h;
    PI / 3.0
        * (2.0 * h * crown * crown
            - (2.0 * knuckle * knuckle + c * c + 2.0 * knuckle * crown) * below
            + 3.0 * knuckle * knuckle * c * (below / (crown - knuckle)).asin())
}
