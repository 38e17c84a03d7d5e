//! A body that turns about an axis: a round wall between two heads. STUB
use core::fmt;
#[derive(Clone, Copy, Debug, PartialEq)]
#[allow(missing_docs)]
pub enum Head { Flat, Dome { depth: f64 }, Torispherical { crown: f64, knuckle: f64 } }
#[derive(Clone, Copy, Debug, PartialEq)]
#[allow(missing_docs)]
pub struct Turned { radius: f64, length: f64, heads: [Head; 2] }
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[allow(missing_docs)]
pub enum TurnedError { Crown{}, Knuckle{}, Other }
impl fmt::Display for TurnedError { fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result { f.write_str("x") } }
#[allow(missing_docs)]
impl Turned {
    pub fn new(radius: f64, length: f64, heads: [Head;2]) -> Result<Self, TurnedError> { Ok(Self{radius,length,heads}) }
    pub fn radius(&self)->f64 { self.radius }
    pub fn length(&self)->f64 { self.length }
    pub fn heads(&self)->[Head;2] { self.heads }
    pub fn head_depth(&self,_i:usize)->f64 {0.0}
    pub fn head_area(&self,_i:usize)->f64 {0.0}
    pub fn shell_area(&self)->f64 {0.0}
    pub fn volume(&self)->f64 {0.0}
    pub fn centroid_along(&self)->f64 {0.0}
    pub fn extent(&self,_a:f64,_b:f64)->(f64,f64) {(0.0,1.0)}
    pub fn below(&self,_a:f64,_b:f64,_l:f64)->(f64,f64) {(0.0,1.0)}
}
