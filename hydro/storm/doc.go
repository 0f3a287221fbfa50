// Package storm finds the storm peak of a small catchment and what it does in a channel, from
// numbers a person can write on one sheet: rain, ground, flow path, cross-section.
//
// Peaks does the whole job: it takes a Request and returns the peak by every method whose inputs
// are there, each with its range of validity, the one chosen and the spread. The parts stand
// alone too: Table and Curve for rainfall, Loss for runoff, the Segments of a flow path for the
// time of concentration, Channel for flow depth, Shear and Linings for what the bed can bear.
//
// Nothing is assumed for the user: without rainfall, a curve number or a runoff coefficient the
// methods that need it are left out, with a note that says what is missing.
//
// # Assumptions
// Rain is the same over the whole catchment. The return period of a peak is that of its rain.
// Runoff follows the curve number; a unit hydrograph is linear. Channel flow is steady and
// uniform on the slope given, so behind a dam the slope is that of the energy line, not the bed's.
// A rational peak is a peak only: the hydrograph returned always holds the runoff volume.
//
// # Units
// SI: metres, seconds, m³/s, slope as rise over run, pascals. Rain is in mm, mm/h and hours, as
// the trade has it. The unit ends each exported name. Tables keep the figures as printed, US units
// where the source is US, and are converted once.
//
// # Limits
// Catchments of 0.1 ha to 10 km². Ungauged peaks are uncertain by about half to double.
// Values recalled from memory are marked so in the code, and Note.Recalled tells the user.
// Every function is safe for several readers at once; none changes what it is given.
//
// # Sources
// Keys of hydro.Source: SCS1986, NRCSNEH630, Ponce1989, Kirpich1940, Kerby1959, TxDOTHydraulic, McCuenSpiess,
// Cleveland2012, ChowMaidmentMays1988, NOAAAtlas2, AustinDrainage, Hawkins2002, Thompson2007, AASHTODrainage,
// NWSUnitHydrograph, Genereux2003, Chow1959, Jarrett1984, Yochum2014, HEC15, Fischenich2001,
// FortierScobey1926, Keown1977.
package storm
