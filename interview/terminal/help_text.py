"""What does a person at the counter need to know about this screen? The help, written for the trade."""

from __future__ import annotations

HELP = """\
HOW IT GOES
You are asked one thing at a time. Answer in the words of the trade: "half inch", "2500 psi peaks 3200", "AW46", \
"oil to 180F, yard -10 to 100F", "JIC 8 females both ends". One line may hold the whole job; you are then asked \
only for what is still missing. Units are yours to choose: psi, bar or MPa, °F or °C, inch or mm, gpm or L/min. Write \
the unit.

Where answers are numbered, type the number or the words. Where several hold, type them with a space between: 1 3. \
"none" is an answer too.

WHEN YOU DO NOT KNOW
Type ? and Enter. You are then asked something easier, or told how to find out or measure it, or an assumption is made \
and marked as assumed. Some things may not be assumed: pressure and temperature that can hurt somebody stay open, and \
the record says so. An unknown never counts as a pass.

WORDS THAT ALWAYS WORK (a slash before them is welcome, not needed)
why                     why this is asked, and what hangs on it
how                     how to find it out or measure it
?, don't know           nobody here knows
later, skip             comes back to this question at the end
list                    every answer the question knows
back, undo              takes the last answer back
change bore to 3/8      corrects a fact; what rested on it is asked again
remove bore             takes a fact back
go pressure             to another topic; F6 lists them
facts, fits, topics     the pages of F3, F4 and F6
why not en853-1sn 8     why one hose is out
accept                  the result stands as shown
build                   goes on to what a build still needs
record FILE.md          writes the record (.md, .html, .pdf, .json)
build sheet FILE.md     the same for the sheet, once ready for build
tag FILE.txt            the same for the tag
drawing FILE.svg        the assembly drawn (.svg, .txt)
save                    keeps the record in the store
records WORD            finds records in the store
revise NUMBER           goes on from a record, to put it right
repeat NUMBER           the same hose once more
resume                  goes on with an interview that was left
quit                    leaves; everything is kept
help                    this page

LONG ANSWERS
What was understood stands at the top; the line above the prompt says when more is below, and which question. Enter on \
an empty line reads on; an answer may be typed at any time.

KEYS
F1  this page                         F5  takes the last answer back
F2  why it is asked, how to find out  F6  topics: go to another
F3  what is known; Enter corrects     F7  pictures
F4  what still fits, and why not      F8  don't know
up, down      earlier lines, to send again or to mend
page up, down through the conversation
Esc           back to the conversation
ctrl+p        everything that can be done from here, by name
ctrl+q        leave

Pasting many lines makes one line of them. Text is selected with the mouse; ctrl+c sends it to the terminal.

WHAT THE MARGIN SAYS
noted         what was understood; now is the moment to object
read off      taken from a plate, a print or a manual
old hose      copied from the old hose
worked out    computed from other answers
assumed       a house rule filled it in: confirm it
won't do      what was read, why it will not do, what would
take care     a caution for the bench or the machine

WHAT STILL FITS
+  fits        every check is passed with what is known
?  open        something is not known well enough to say
×  out         a check fails; F4 and Enter say which

WHAT IT WILL NOT DO
It states no crimp diameter and pairs no hose with a fitting: that is the makers' data. It approves nothing. The \
machine maker's document, local law and licensed practice come first.

LOOK
look dark, look light, look terminal: the last takes the terminal's own colours
"""
