// Package channel turns a flow field into drainages a person can walk: a network of
// links, main stems with ids, a smoothed line with stations, and a longitudinal profile.
//
// The stages run in this order: channel cells, pruning, links and orders, drainages,
// entries over the edge of the data, then line, ground, bed and slope of each drainage,
// largest first so that a tributary can end on the line and bed of the one it joins.
//
// Sections takes cross-sections at right angles to the smoothed line, from the original elevation model. On each
// side of the thalweg three straight parts that hang together, bed, bank and the ground beyond, are fitted by
// least squares; what is told of a section follows from the lines. Where cells are too coarse for a channel the
// section says so.
//
// # Assumptions
// A cell is channel once enough land drains through it; catchments only grow downstream,
// so channel stays channel to the end of flow. At a junction the main stem is the inflow
// with the largest catchment; of equal ones the longer, then the one of lower cell index.
// The bed never rises downstream; what stands above it in the model is noise, a road fill
// or a blockage.
//
// A bank ends where the ground becomes markedly flatter, by half or more. Ground that rises no steeper than 1 : 3,
// or 1 : 2 over 8 m or more, is the side of a valley and no bank; so is a slope without such a break. The bed is
// level between the toes.
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
// On drawn trenches with beds and banks of 3 cells or more depth comes out within 0.1 m, widths within a cell, and the
// slope of banks 3 cells long within 10 %; errors of 0.05 m in the cells leave the median over a straight trench
// within the same. Banks shorter than two cells look flatter than they are: their slope is a guess, and vertical
// walls may come out 1.5 cells too far apart. A V is resolved only where its tip cannot lie more than 0.1 m lower
// than the cells show. A bank lower than 0.1 m, or 2.5 standard deviations of a height, is not seen.
//
// # Sources
// Keys of hydro.Source: Strahler1957, SchwanghartScherler2017.
package channel
