"""What leggings and trousers are made of: sizes, seat, legs, fields, findings, words of sewing, checks.

Every half is reckoned with its crotch to the right: x across from the axis of the leg, y down from the level of the
waist at the side. Finished millimetres.
"""
