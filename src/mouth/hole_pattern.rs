//! How holes are arranged in a regular pattern, and what their neighbours' static fields add up to.

use crate::choice::choice;

/// How the holes are arranged.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[non_exhaustive]
pub enum HolePattern {
    /// Rows and columns.
    Square,
    /// Staggered rows, each hole with six neighbours at 60 degrees.
    Hexagonal,
}

choice!(HolePattern, "hole pattern" { Square => "square", Hexagonal => "hexagonal" });

impl HolePattern {
    /// Distance of rows over the pitch.
    pub(crate) fn row_step(self) -> f64 {
        self.cell()
    }

    /// By how much of a pitch every second row is shifted.
    pub(crate) fn shift(self) -> f64 {
        match self {
            Self::Square => 0.0,
            Self::Hexagonal => 0.5,
        }
    }

    /// Area per hole over the pitch squared.
    pub(crate) fn cell(self) -> f64 {
        match self {
            Self::Square => 1.0,
            Self::Hexagonal => 0.5 * 3.0_f64.sqrt(),
        }
    }

    /// Σ (pitch/distance)³ over all other holes. The sums are 4 ζ(3/2) β(3/2) and 6 ζ(3/2) L₃(3/2).
    pub(crate) fn lattice_sum(self) -> f64 {
        match self {
            Self::Square => 9.033_621_683_100_95,
            Self::Hexagonal => 11.034_175_734_914_1,
        }
    }
}

#[cfg(test)]
mod tests {
    use std::f64::consts::PI;

    use super::*;

    #[test]
    fn lattice_sums_are_those_of_the_lattice() {
        // Direct sum over a disc of radius R, the rest by an integral: 2π/(cell R).
        for pattern in [HolePattern::Square, HolePattern::Hexagonal] {
            let reach = 400.0_f64;
            let mut sum = 0.0;
            for m in -500..=500 {
                for n in -500..=500 {
                    let (m, n) = (f64::from(m), f64::from(n));
                    let squared = match pattern {
                        HolePattern::Square => m * m + n * n,
                        HolePattern::Hexagonal => m * m + m * n + n * n,
                    };
                    if squared > 0.0 && squared <= reach * reach {
                        sum += squared.powf(-1.5);
                    }
                }
            }
            sum += 2.0 * PI / (pattern.cell() * reach);
            assert!((sum - pattern.lattice_sum()).abs() < 1e-5, "{pattern:?} {sum}");
        }
    }
}
