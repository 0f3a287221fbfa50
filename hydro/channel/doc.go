// Package channel turns a flow field into drainages a person can walk: a network of
// links, main stems with ids, a smoothed line with stations, and a longitudinal profile.
//
// The stages run in this order: channel cells, pruning, links and orders, drainages,
// entries over the edge of the data, then line, ground, bed and slope of each drainage,
// largest first so that a tributary can end on the line and bed of the one it joins.
//
// # Assumptions
// A cell is channel once enough land drains through it; catchments only grow downstream,
// so channel stays channel to the end of flow. At a junction the main stem is the inflow
// with the largest catchment; of equal ones the longer, then the one of lower cell index.
// The bed never rises downstream; what stands above it in the model is noise, a road fill
// or a blockage.
//
// # Units
// Metres, m², slope as rise over run. Stations rise upstream from zero at a drainage's lower
// end; cells of links and drainages run downstream. Ground and bed are worked in whole
// millimetres.
//
// # Limits
// Ground heights come from the original elevation model, never from the filled surface.
// The length of a smoothed line is within 1 % for straight valleys and 1.5 % for bends of
// radius 10 cells or more, between places whose own position is known to a cell; tighter
// bends come out short. Where flow crosses filled ground the line is a guess: see
// Station.FillM. No bed is read where a blockage was cut through, in stock ponds, and under standing
// water and what holds it: see Station.NoBed. The grid and the field are only read.
//
// # Sources
// Keys of hydro.Source: Strahler1957, SchwanghartScherler2017.
package channel
