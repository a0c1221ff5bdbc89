"""Every symbol of a formula: its name, unit and meaning. One home; a parameter of a formula is a key here."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Symbol:
    """A symbol of a formula."""

    key: str
    """As a parameter name, such as ``m_i``."""
    latex: str
    kind: str
    """A key of :data:`dossier.units.KINDS`."""
    meaning: str


def _table(*rows: tuple[str, str, str, str]) -> dict[str, Symbol]:
    return {key: Symbol(key, latex, kind, meaning) for key, latex, kind, meaning in rows}


SYMBOLS: dict[str, Symbol] = _table(
    # weighing and balance
    ("m_scale", r"m_{scale}", "mass", "reading of the scale under a support"),
    ("m_tare", r"m_{tare}", "mass", "chocks and other things on the scale that are not part of the aircraft"),
    ("m_net", r"m_{net}", "mass", "net mass on a support"),
    ("m_i", r"m_i", "mass", "mass of item or support i"),
    ("x_i", r"x_i", "length", "arm of item or support i, behind the datum positive"),
    ("x_CG", r"x_{CG}", "length", "arm of the centre of gravity"),
    ("m", r"m", "mass", "mass"),
    ("x", r"x", "length", "arm, behind the datum positive"),
    ("M", r"M", "mass_moment", "moment: mass times arm"),
    ("p_MAC", r"p_{MAC}", "ratio", "place on the mean aerodynamic chord, 0 at its leading edge"),
    ("x_LEMAC", r"x_{LEMAC}", "length", "arm of the leading edge of the mean aerodynamic chord"),
    ("c_MAC", r"c_{MAC}", "length", "mean aerodynamic chord"),
    ("h_CG", r"h_{CG}", "length", "height of the centre of gravity above the line of the supports"),
    ("alpha", r"\alpha", "angle", "angle out of level, nose up positive"),
    ("dx_level", r"\Delta x", "length", "apparent shift of the centre of gravity, aft positive"),
    # loading and envelope
    ("x_lim", r"x_{lim}", "length", "arm of a limit of the centre of gravity"),
    ("x_b", r"x_b", "length", "arm of the ballast"),
    ("m_b", r"m_b", "mass", "mass of the ballast"),
    ("m_0", r"m_0", "mass", "mass of the aircraft ready to fly but for the pilot"),
    ("x_0", r"x_0", "length", "arm of the centre of gravity without the pilot"),
    ("x_P", r"x_P", "length", "arm of the pilot"),
    ("m_P", r"m_P", "mass", "mass of the pilot with clothes and parachute"),
    ("m_max", r"m_{max}", "mass", "limit of mass"),
    ("m_j", r"m_j", "mass", "mass at corner j of the envelope"),
    ("x_j", r"x_j", "length", "arm of the limit at corner j of the envelope"),
    ("x_fj", r"x_{f,j}", "length", "arm of the forward limit at corner j of the envelope"),
    ("x_aj", r"x_{a,j}", "length", "arm of the aft limit at corner j of the envelope"),
    ("dx_f", r"\Delta x_f", "length", "margin to the forward limit"),
    ("dx_a", r"\Delta x_a", "length", "margin to the aft limit"),
    ("dm", r"\Delta m", "mass", "margin to a limit of mass"),
    # masses that a rule leaves out
    ("m_E", r"m_E", "mass", "empty mass"),
    ("m_li", r"m_{l,i}", "mass", "mass of item i that the rule leaves out, as fitted"),
    ("m_ci", r"m_{c,i}", "mass", "allowance for item i: the most that the rule leaves out"),
    ("m_count", r"m_{count}", "mass", "mass that counts against a limit"),
    # cell and pack
    ("N_s", r"N_s", "number", "cells in series"),
    ("N_p", r"N_p", "number", "strings in parallel"),
    ("N", r"N", "number", "cells in the pack"),
    ("U_cell", r"U_{cell}", "voltage", "voltage of a cell"),
    ("U", r"U", "voltage", "voltage of the pack, under the load where there is one"),
    ("U_0", r"U_0", "voltage", "voltage of the pack at rest"),
    ("U_nom", r"U_{nom}", "voltage", "nominal voltage"),
    ("U_oc", r"U_{oc}", "voltage", "open-circuit (rest) voltage of a cell"),
    ("U_1", r"U_1", "voltage", "rest voltage of a cell at the start"),
    ("U_2", r"U_2", "voltage", "rest voltage of a cell at the end"),
    ("U_i", r"U_i", "voltage", "rest voltage of a cell at point i of its table"),
    ("z", r"z", "ratio", "state of charge"),
    ("z_1", r"z_1", "ratio", "state of charge at the start"),
    ("z_2", r"z_2", "ratio", "state of charge at the end"),
    ("z_i", r"z_i", "ratio", "state of charge at point i of the table"),
    ("Q_cell", r"Q_{cell}", "charge", "capacity of a cell"),
    ("Q", r"Q", "charge", "capacity"),
    ("R_cell", r"R_{cell}", "resistance", "internal resistance of a cell"),
    ("R", r"R", "resistance", "internal resistance of the pack"),
    ("E", r"E", "energy", "energy"),
    ("E_nom", r"E_{nom}", "energy", "nameplate energy"),
    ("E_cell", r"E_{cell}", "energy", "energy of a cell"),
    ("r", r"r", "ratio", "part of the energy that is kept as a reserve"),
    ("E_u", r"E_u", "energy", "usable energy"),
    ("I", r"I", "current", "current, discharge positive"),
    ("C", r"C", "number", "discharge rate in capacities per hour"),
    ("t_taper", r"t_{taper}", "time", "time in which the charger tapers off"),
    ("e_m", r"e_m", "specific_energy", "energy for mass"),
    ("e_V", r"e_V", "energy_density", "energy for volume"),
    ("V", r"V", "volume", "volume"),
    ("l_bay", r"l_{bay}", "length", "inner length of the bay along one axis"),
    ("l_pack", r"l_{pack}", "length", "outer length of the pack along the same axis"),
    ("l_gap", r"l_{gap}", "length", "gap that must stay free on each side"),
    ("dl", r"\Delta l", "length", "room left along one axis"),
    ("Q_nom", r"Q_{nom}", "charge", "nominal capacity of a cell"),
    ("H", r"H", "ratio", "health: capacity left of the nominal one"),
    ("eta_b", r"\eta_b", "ratio", "efficiency of the battery while it is discharged"),
    ("E_d", r"E_d", "energy", "energy at the terminals"),
    ("l_x", r"l_x", "length", "outer length"),
    ("l_y", r"l_y", "length", "outer width"),
    ("l_z", r"l_z", "length", "outer height"),
    # cell under load
    ("R_25", r"R_{25}", "resistance", "quasi-steady resistance of a cell at 25 °C, new"),
    ("R_i", r"R_i", "resistance", "quasi-steady resistance of a cell at 25 °C at point i of the table"),
    ("R_x", r"R_x", "resistance", "wiring in series with a cell, its share of that of the pack"),
    ("R_w", r"R_w", "resistance", "wiring in series with the pack"),
    ("b", r"b", "temperature", "constant of the rise of resistance in the cold"),
    ("T_b", r"T_b", "temperature", "temperature of the battery"),
    ("G", r"G", "number", "growth of resistance with age, 1 when new"),
    ("P_cell", r"P_{cell}", "power", "electric power of a cell"),
    ("U_min", r"U_{min}", "voltage", "voltage of a cell under load at which the discharge ends"),
    ("C_lim", r"C_{lim}", "number", "nominal rate, in 1/h, up to which one resistance stands for the cell"),
    ("N_f", r"N_f", "number", "strings fitted in a partly filled box"),
    ("p_f", r"p_f", "ratio", "part of the strings that is fitted"),
    # ageing and charging
    ("dH_cal", r"\Delta H_{cal}", "ratio", "capacity lost in storage, of the capacity when new"),
    ("dH_cyc", r"\Delta H_{cyc}", "ratio", "capacity lost by use, of the capacity when new"),
    ("dG_cal", r"\Delta G_{cal}", "number", "growth of resistance in storage, of that when new"),
    ("dG_cyc", r"\Delta G_{cyc}", "number", "growth of resistance by use, of that when new"),
    ("U_rms", r"U_{rms}", "voltage", "root mean square of the rest voltage over the window of charge that is used"),
    ("z_d", r"z_d", "ratio", "depth of the window of charge that is used"),
    ("N_c", r"N_c", "number", "cycles through the window of charge"),
    ("E_s", r"E_s", "energy", "energy from the socket"),
    # wires
    ("dU", r"\Delta U", "voltage", "drop of voltage along a conductor"),
    ("R_L", r"R_L", "resistance", "resistance of a conductor, there and back, at 20 °C"),
    ("R_h", r"R_h", "resistance", "resistance of a conductor, there and back, when warm"),
    ("T_a", r"T_a", "temperature", "temperature around a conductor"),
    ("T_R", r"T_R", "temperature", "rated temperature of a conductor"),
    ("T_L", r"T_L", "temperature", "temperature of a conductor"),
    ("I_max", r"I_{max}", "current", "current that brings a conductor to its rated temperature"),
    # the whole aircraft
    ("v", r"v", "speed", "speed"),
    ("v_ref", r"v_{ref}", "speed", "speed at the reference mass"),
    ("S", r"S", "area", "wing area"),
    ("sigma", r"\sigma", "surface_loading", "mass for wing area"),
    ("y", r"y", "number", "the value as stated, in its own unit"),
    # power and energy in flight
    ("P", r"P", "power", "electric power"),
    ("eta", r"\eta", "ratio", "efficiency from the battery to the thrust, or of the charger"),
    ("eta_i", r"\eta_i", "ratio", "efficiency of link i"),
    ("g", r"g", "acceleration", "acceleration of gravity"),
    ("w", r"w", "speed", "sink rate without power"),
    ("w_ref", r"w_{ref}", "speed", "sink rate at the reference mass"),
    ("m_ref", r"m_{ref}", "mass", "reference mass"),
    ("v_c", r"v_c", "speed", "rate of climb"),
    ("h", r"h", "length", "height to gain"),
    ("t", r"t", "time", "time"),
    ("E_c", r"E_c", "energy", "energy of a climb"),
    ("E_ph", r"E_{ph}", "energy", "energy of a phase of flight"),
    ("E_i", r"E_i", "energy", "energy of fixed phase i, or of a reserve"),
    ("E_r", r"E_r", "energy", "energy left"),
    ("t_e", r"t_e", "time", "endurance"),
)
