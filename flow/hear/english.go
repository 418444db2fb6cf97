package hear

var english = tongue{
	units: spell(append([]string{
		"mm:mil,mill,mils,mills,millis,milli,millimetre,millimetres,millimeter,millimeters,mms",
		"cm:cms,centimetre,centimetres,centimeter,centimeters,centi,centis",
		"m:metre,metres,meter,meters,mtr,mtrs,mt,ms",
		"km:kms,kilometre,kilometres,kilometer,kilometers",
		"in:ins,inch,inches", "ft:foot,feet,fts", "yd:yds,yard,yards",
		"m2:sqm,sq m,square metre,square metres,square meter,square meters,metres squared,meters squared,m squared,msq",
		"ft2:sq ft,square foot,square feet,sqf",
		"°C:celsius,centigrade", "°F:fahrenheit", "°:deg,degs,degree,degrees",
		"s:secs,second,seconds", "min:mins,minute,minutes", "h:hrs,hour,hours", "d:day,days", "wk:week,weeks,wk,wks",
		"g:gram,grams,gramme,grammes", "kg:kgs,kilo,kilos,kilogram,kilograms,kilogramme,kilogrammes,k",
		"t:tonne,tonnes", "lb:pound,pounds", "st:stone,stones",
		"ml:mil,mill,mils,mills,millilitre,millilitres,milliliter,milliliters,mls",
		"l:litre,litres,liter,liters,ltrs",
		"gal:gallon,gallons,gal,gals", "pt:pint,pints",
		"m/s:ms,metres a second,metres per second,meters per second", "mph:miles an hour,miles per hour",
		"km/h:kilometres an hour,kilometres per hour,kilometers per hour", "kn:knot,knots",
		"%:percent,per cent,pct,pc",
		"deg:deg,degs,degree,degrees",
	}, everywhere...)...),

	numerals: merge(
		numbers(unitWord, "zero/nought/naught/oh/nil one two three four five six seven eight nine", 0, 1, 2, 3, 4, 5, 6, 7, 8, 9),
		numbers(teenWord, "ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen",
			10, 11, 12, 13, 14, 15, 16, 17, 18, 19),
		numbers(tenWord, "twenty thirty forty/fourty fifty sixty seventy eighty ninety/ninty", 20, 30, 40, 50, 60, 70, 80, 90),
		numbers(timesWord, "hundred/hundreds thousand/thousands dozen", 100, 1000, 12),
		numbers(partWord, "half/halves quarter/quarters third/thirds eighth/eighths sixteenth/sixteenths",
			1./2, 1./4, 1./3, 1./8, 1./16),
	),
	point: setOf("point,dot"),
	and:   setOf("and,&,plus"),
	by:    setOf("by,times"),
	one:   setOf("a,an"),
	minus: setOf("minus,negative"),
	below: setOf("below,below zero,below freezing"),
	of:    setOf("of,of a,of an,a,an"),
	in:    setOf("in,to,over"),
	per:   setOf("per,in a,in one,a,to the,every,for every,in every,each"),
	none:  setOf("none,nothing,nil,no"),
	noise: setOf("about,around,roughly,approx,approximately,circa,say,its,it,is,it is,thats,that,be,the,just,exactly,bang on,on the nose," +
		"er,erm,um,uh,hmm,well,so,please,ta,mate,think,i,i make it,make,reckon,measures,measured,measuring,reads,reading,says,got,get," +
		"i got,at,on,long,wide,deep,high,thick,tall,across,length,width,depth,height,span,diagonal,diagonals,total,overall,altogether," +
		"each,all,total of,are,they,theyre,there,theres,im,were,we,have,has,was,yes,yeah,yep,ok,okay,right,only,of,clear"),
	nouns: setOf("joist,joists,board,boards,piece,pieces,off,no,nails,nail,screws,screw,people,person,men,man,hands,of us,pipes,pipe," +
		"corners,corner,ends,end,straps,strap,clips,clip,hangers,hanger,anchors,anchor,walls,wall,windows,window,rollers,roller,tins,tin," +
		"bays,bay,rows,row,lengths,times,x,pcs,pc,ea"),

	yes: setOf("y,yes,yep,yup,yeah,yea,ya,yah,ye,yeh,yh,yus,yess,aye,affirmative,affirm,definitely,absolutely,indeed,correct,true,sure,certainly," +
		"yessir,both,positive,👍,👌,✓,✔,✅,☑"),
	no: setOf("n,no,nope,nah,na,nay,naw,noo,never,negative,none,nothing,false,not,neither,👎,✗,✘,❌,✖"),
	yesAll: setOf("of course,for sure,of course it is,it is,it does,they are,they do,i have,we have,we do,i do,i did,we did,there is,there are,it has," +
		"has been,all done,done,all in,all good,thats right,right,too right,go on,go ahead,go for it,please do,you bet,got it,of course yes"),
	noAll: setOf("not yet,no way,not at all,not any,not one,it isnt,it is not,it doesnt,they arent,they dont,i havent,we havent,havent,hasnt,isnt,arent," +
		"there isnt,there arent,there is not,i dont,we dont,dont,didnt,i didnt,we didnt,not done,not needed,no need,no thanks,no thank you"),
	fine: setOf("ok,okay,okey,k,kk,fine,alright,all right,good,sound,grand,thats fine,looks good,same,as is,default,agreed,accept,cool"),
	unsure: setOf("dont know,do not know,i dont know,i do not know,dunno,i dunno,dk,idk,no idea,no clue,havent a clue,not sure,im not sure,unsure," +
		"not certain,cant tell,cant say,cannot tell,cannot say,cant remember,unknown,who knows,pass,dont no,couldnt say,couldnt tell you,beats me,haven't the foggiest,maybe"),
	but:        setOf("but,except,apart,unless,only,almost,nearly,partly,mostly,some,half,maybe,perhaps,although,though,if,until"),
	noBut:      setOf("problem,problems,worries,bother,matter,idea,sure,clue"),
	or:         setOf("or,maybe,perhaps,either"),
	not:        setOf("not,no,isnt,arent,wasnt,dont,doesnt,never,neither,nor,without,except,but"),
	optionWord: setOf("option,number,no,choice,answer,pick,the,one,#,num,nr,item"),
	ordinals: map[string]int{"first": 1, "1st": 1, "second": 2, "2nd": 2, "third": 3, "3rd": 3, "fourth": 4, "4th": 4, "fifth": 5, "5th": 5,
		"sixth": 6, "6th": 6, "seventh": 7, "7th": 7, "eighth": 8, "8th": 8, "ninth": 9, "9th": 9, "tenth": 10, "10th": 10, "last": -1},

	notNumbers: map[string]string{"nan": RefusedNotFinite, "inf": RefusedNotFinite, "infinity": RefusedNotFinite, "infinite": RefusedNotFinite},

	commands: together(
		sayings(Accept, false, "., ok, okay, done, ok done, all done, accept, next, carry on"),
		sayings(Back, false, "b, back, go back, previous"),
		sayings(Undo, false, "u, undo, undo that, take that back"),
		sayings(Skip, true, "s, skip, skip it, skip this, skip that"),
		sayings(PutOff, true, "d, put off, put it off, put that off, put this off, defer, later, do it later, not now, remind me"),
		sayings(Pause, false, "p, pause, pause job, stop for today, stop for now, thats it for today, knocking off, packing up"),
		sayings(Why, false, "?, why, why?, ??, what, what?, how come, why do you ask, whats that, what for, explain"),
		sayings(Rain, false, "r, rain, raining, its raining, rain!, its started raining, rains coming, rain coming, its spitting, starting to rain"),
		sayings(Stop, false, "x, stop, stop!, emergency, stop now, abort, mayday"),
		sayings(Timers, false, "t, timers, timer, clocks, clock, how long have i got, how long left, how long"),
		sayings(List, false, "list, materials, shopping list, material list, materials list"),
		sayings(Where, false, "where, where am i, where are we, where was i, status, whats next, what next"),
		sayings(Change, true, "change, correct, correction"),
		sayings(Go, true, "go, go to, goto, jump to, jump"),
		sayings(Help, false, "help, commands, h"),
		sayings(Note, true, "note, make a note, note that"),
		sayings(Snag, true, "snag"),
		sayings(TakeUp, true, "take up, take it up, pick up, resume"),
	),
}
