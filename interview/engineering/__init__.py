"""What does the arithmetic of the trade say? Plain functions on SI floats, one physical subject a module.

Every function names its formula, its source and how the source was obtained (standard, restated, handbook, practice,
memory), its validity, and an example that runs. Whatever cannot be computed raises `EngineeringError` with a sentence;
no infinity and no NaN leaves this package. Pressures are gauge unless a name says absolute; temperatures are in degree
Celsius; angles are in degrees; everything else is SI.
"""
