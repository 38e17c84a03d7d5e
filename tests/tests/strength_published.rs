//! scratch
use seamwright_core::proof::plate::*;
#[test]
fn scratch() {
    for r in [1.0,1.2,1.4,1.5,1.6,1.8,2.0,3.0,4.0,5.0,8.0,10.0,100.0] {
        let s = Sides::new(1.0, r).unwrap();
        let a = supported(s, Ramp::even(1.0), 0.3);
        let c = clamped(s, Ramp::even(1.0), 0.3);
        println!("{r} ss w {:.9} m {:.9} cl w {:.9} b {:.6}", a.deflection, a.moment, c.deflection, 6.0*c.moment);
    }
    for (r, along) in [(1.0,true),(1.0,false),(1.5,true),(1.5,false),(2.0,true),(2.0,false)] {
        let s = Sides::new(1.0, r).unwrap();
        let ramp = if along { Ramp{mean:0.5,across:0.0,along:0.5}} else { Ramp{mean:0.5,across:0.5,along:0.0}};
        let a = supported(s, ramp, 0.3);
        let c = clamped(s, ramp, 0.3);
        println!("{r} {along} ss w {:.9} m {:.9} cl w {:.9} b {:.6}", a.deflection, a.moment, c.deflection, c.moment);
    }
}
