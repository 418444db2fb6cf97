package hear

import "testing"

// A Wednesday morning in May.
var morning = Civil{Year: 2026, Month: 5, Day: 6, Hour: 9, Minute: 30}

func TestMomentToCome(t *testing.T) {
	t.Parallel()
	check(t, Want{Kind: Time, Now: morning}, []row{
		// spans
		{"in 10 min", "+10min"}, {"10 min", "+10min"}, {"10 minutes", "+10min"}, {"ten minutes", "+10min"}, {"in half an hour", "+30min"},
		{"half an hour", "+30min"}, {"an hour and a half", "+90min"}, {"in 2 hours", "+120min"}, {"2 hours from now", "+120min"}, {"1h30", "+90min"},
		{"in 10m", "+10min"}, {"in 10 minutes time", "+10min"}, {"now", "+0min"}, {"straight away", "+0min"}, {"in 10", "no moment"}, {"10m", "? +10min | 2027-03-06"},
		{"2 weeks", "2026-05-20"}, {"in 2 weeks", "2026-05-20"}, {"two weeks", "2026-05-20"}, {"a fortnight", "2026-05-20"}, {"in a fortnight", "2026-05-20"},
		{"a week", "2026-05-13"}, {"in a week", "2026-05-13"}, {"3 days", "2026-05-09"}, {"a month", "2026-06-06"}, {"in 3 months", "2026-08-06"}, {"a year", "2027-05-06"},
		{"2 years", "2028-05-06"},
		// days by name
		{"today", "2026-05-06"}, {"tomorrow", "2026-05-07"}, {"Tomorrow.", "2026-05-07"}, {"the day after tomorrow", "2026-05-08"}, {"tonight", "2026-05-06"},
		{"tomorrow morning", "2026-05-07"}, {"yesterday", "2026-05-05"},
		{"friday", "2026-05-08"}, {"fri", "2026-05-08"}, {"Fri.", "2026-05-08"}, {"on friday", "2026-05-08"}, {"by friday", "2026-05-08"}, {"this friday", "2026-05-08"},
		{"monday", "2026-05-11"}, {"sunday", "2026-05-10"}, {"friday week", "2026-05-15"},
		{"wednesday", "? 2026-05-06 | 2026-05-13"}, {"next friday", "? 2026-05-08 | 2026-05-15"}, {"next wednesday", "? 2026-05-13 | 2026-05-20"},
		{"weekend", "2026-05-09"}, {"the weekend", "2026-05-09"}, {"next weekend", "? 2026-05-09 | 2026-05-16"},
		{"next week", "2026-05-11 week"}, {"next month", "2026-06 month"}, {"next year", "2027-01 month"},
		// dates
		{"12 may", "2026-05-12"}, {"12 May", "2026-05-12"}, {"12th may", "2026-05-12"}, {"12th of may", "2026-05-12"}, {"the 12th of may", "2026-05-12"},
		{"may 12", "2026-05-12"}, {"May 12th", "2026-05-12"}, {"12 may 2027", "2027-05-12"}, {"May 12, 2027", "2027-05-12"}, {"12may", "2026-05-12"},
		{"twelfth of may", "2026-05-12"}, {"twelve may", "2026-05-12"}, {"the twenty first of june", "2026-06-21"}, {"1 jan", "2027-01-01"}, {"5 may", "2027-05-05"},
		{"6 may", "2026-05-06"}, {"29 feb", "2028-02-29"}, {"31 feb", "no moment"}, {"32 may", "no moment"}, {"may 32", "no moment"}, {"may 0", "no moment"}, {"31/2/2027", "no moment"}, {"20260-05-12", "no moment"}, {"1.5 months", "no moment"}, {"18 may monday", "2026-05-18"}, {"last month", "2026-04 month"}, {"0 may", "no moment"},
		{"the 12th", "2026-05-12"}, {"12th", "2026-05-12"}, {"the 3rd", "2026-06-03"}, {"the 31st", "2026-05-31"}, {"monday 18 may", "2026-05-18"},
		{"tuesday 18 may", "no moment"},
		{"2026-05-12", "2026-05-12"}, {"13/5", "2026-05-13"}, {"13/5/2026", "2026-05-13"}, {"13/5/26", "2026-05-13"}, {"13.5.2026", "2026-05-13"}, {"13-5-2026", "2026-05-13"},
		{"6/6", "2026-06-06"}, {"12/5", "? 2026-05-12 | 2026-12-05"}, {"12/5/26", "? 2026-05-12 | 2026-12-05"}, {"5/13", "2026-05-13"}, {"12.5.", "2026-05-12"},
		{"99/99", "no moment"}, {"1/1/1", "no moment"}, {"2026-13-40", "no moment"},
		// months and seasons
		{"spring", "2027-03 season"}, {"in spring", "2027-03 season"}, {"next spring", "2027-03 season"}, {"summer", "2026-06 season"}, {"autumn", "2026-09 season"},
		{"winter", "2026-12 season"}, {"spring 2028", "2028-03 season"}, {"june", "2026-06 month"}, {"in june", "2026-06 month"}, {"may", "2027-05 month"},
		{"end of may", "2026-05-31"}, {"end of june", "2026-06-30"}, {"mid june", "2026-06-15"}, {"start of june", "2026-06-01"}, {"end of the month", "2026-05-31"},
		{"june 2027", "2027-06 month"},
		// times of day
		{"10:42", "2026-05-06 10:42"}, {"10.42", "2026-05-06 10:42"}, {"1042", "2026-05-06 10:42"}, {"at 10:42", "2026-05-06 10:42"}, {"10:42:30", "2026-05-06 10:42"},
		{"10am", "2026-05-06 10:00"}, {"10 a.m.", "2026-05-06 10:00"}, {"10pm", "2026-05-06 22:00"}, {"10.30 pm", "2026-05-06 22:30"}, {"9am", "2026-05-07 09:00"},
		{"3:30", "2026-05-06 15:30"}, {"15:30", "2026-05-06 15:30"}, {"03:30", "2026-05-07 03:30"}, {"noon", "2026-05-06 12:00"}, {"midday", "2026-05-06 12:00"},
		{"12pm", "2026-05-06 12:00"}, {"12am", "2026-05-07 00:00"}, {"midnight", "2026-05-07 00:00"}, {"half past ten", "2026-05-06 10:30"}, {"half ten", "2026-05-06 10:30"},
		{"ten past four", "2026-05-06 16:10"}, {"twenty past 4", "2026-05-06 16:20"}, {"quarter to eleven", "2026-05-06 10:45"}, {"a quarter past ten", "2026-05-06 10:15"},
		{"ten minutes to eleven", "2026-05-06 10:50"}, {"quarter to one", "2026-05-06 12:45"}, {"ten thirty", "2026-05-06 10:30"}, {"ten oh five", "2026-05-06 10:05"},
		{"ten o'clock", "2026-05-06 10:00"}, {"3 o’clock", "2026-05-06 15:00"}, {"7", "? 2026-05-06 19:00 | 2026-05-07 07:00"}, {"8:15", "? 2026-05-06 20:15 | 2026-05-07 08:15"},
		{"24:00", "2026-05-07 00:00"}, {"25:00", "no moment"}, {"13:00 am", "no moment"}, {"13:00 pm", "2026-05-06 13:00"}, {"quarter past 24", "no moment"}, {"ten to 0", "2026-05-06 23:50"}, {"25 o'clock", "no moment"}, {"10:60", "no moment"}, {"10:4", "no moment"}, {"12.05", "? 2026-05-06 12:05 | 2026-05-12"},
		{"0930", "2026-05-06 09:30"}, {"in the afternoon", "no moment"},
		// both
		{"tomorrow 10:30", "2026-05-07 10:30"}, {"10:30 tomorrow", "2026-05-07 10:30"}, {"friday at 8", "2026-05-08 08:00"}, {"friday 8am", "2026-05-08 08:00"},
		{"friday at 3", "? 2026-05-08 15:00 | 2026-05-08 03:00"}, {"friday 3pm", "2026-05-08 15:00"}, {"12 may 14:00", "2026-05-12 14:00"}, {"tonight at 8", "2026-05-06 20:00"},
		{"3 tomorrow afternoon", "2026-05-07 15:00"}, {"friday midnight", "? 2026-05-08 00:00 | 2026-05-09 00:00"}, {"spring at 8", "no moment"},
		{"friday 12.05", "2026-05-08 12:05"}, {"tuesday 12.05", "? 2026-05-12 12:05 | 2026-05-12"}, {"12.05 tomorrow", "2026-05-07 12:05"}, {"12.05 friday", "2026-05-08 12:05"},
		{"12.05 pm", "2026-05-06 12:05"}, {"12.05am", "2026-05-07 00:05"},
		{"next friday at noon", "? 2026-05-08 12:00 | 2026-05-15 12:00"},
		// nothing
		{"after the render", "no moment"}, {"soon", "no moment"}, {"5400 mm", "no moment"}, {"10:30 11:30", "no moment"}, {"friday saturday", "no moment"},
		{"-5 min", "no moment"}, {"in minus 5 minutes", "no moment"}, {"99999999 years", "no moment"}, {"1/40", "no moment"}, {"?", "no moment"},
	})
}

func TestMomentGone(t *testing.T) {
	t.Parallel()
	at := morning
	at.Hour, at.Minute = 14, 0
	check(t, Want{Kind: Time, Now: at, Past: true}, []row{
		{"10:42", "2026-05-06 10:42"}, {"1:30", "2026-05-06 13:30"}, {"half one", "2026-05-06 13:30"}, {"20 past 1", "2026-05-06 13:20"}, {"13:30", "2026-05-06 13:30"},
		{"2:30", "? 2026-05-06 02:30 | 2026-05-05 14:30"}, {"14:01", "2026-05-06 14:01"}, {"15:00", "? 2026-05-05 15:00"}, {"now", "+0min"}, {"just now", "+0min"},
		{"10 min", "-10min"}, {"10 min ago", "-10min"}, {"half an hour ago", "-30min"}, {"two hours ago", "-120min"}, {"an hour", "-60min"}, {"2m", "-2min"},
		{"yesterday", "2026-05-05"}, {"yesterday 5pm", "2026-05-05 17:00"}, {"yesterday at 9", "2026-05-05 09:00"}, {"this morning at 9", "2026-05-06 09:00"},
		{"friday", "2026-05-01"}, {"last friday", "2026-05-01"}, {"wednesday", "? 2026-05-06 | 2026-04-29"}, {"1 may", "2026-05-01"}, {"12 may", "2025-05-12"},
		{"2 weeks ago", "2026-04-22"}, {"last week", "2026-04-27 week"}, {"winter", "2025-12 season"}, {"march", "2026-03 month"}, {"since 11", "2026-05-06 11:00"},
	})
	at.Hour = 22
	check(t, Want{Kind: Time, Now: at, Past: true}, []row{{"9:40", "? 2026-05-06 21:40 | 2026-05-06 09:40"}, {"9:40am", "2026-05-06 09:40"}, {"the 3rd", "2026-05-03"}, {"the 30th", "2026-04-30"}})
	at.Hour = 1
	check(t, Want{Kind: Time, Now: at, Past: true}, []row{{"9:40", "? 2026-05-05 21:40 | 2026-05-05 09:40"}})
	check(t, Want{Kind: Time, Now: at}, []row{{"3:30", "? 2026-05-06 15:30 | 2026-05-06 03:30"}, {"7", "2026-05-06 07:00"}})
	at.Hour = 23
	check(t, Want{Kind: Time, Now: at}, []row{{"3:30", "? 2026-05-07 15:30 | 2026-05-07 03:30"}, {"7", "2026-05-07 07:00"}, {"22:30", "2026-05-07 22:30"}})
}

func TestMomentEndsOfMonths(t *testing.T) {
	t.Parallel()
	check(t, Want{Kind: Time, Now: Civil{Year: 2027, Month: 1, Day: 31}}, []row{
		{"a month", "2027-02-28"}, {"the 31st", "2027-01-31"}, {"the 30th", "2027-03-30"}, {"end of the month", "2027-01-31"}, {"tomorrow", "2027-02-01"},
		{"next month", "2027-02 month"}, {"end of february", "2027-02-28"}, {"sunday", "? 2027-01-31 | 2027-02-07"},
	})
	// without a Now only what needs none
	check(t, Want{Kind: Time}, []row{
		{"12 may 2027", "2027-05-12"}, {"in 10 min", "+10min"}, {"friday", "no moment"}, {"10:42", "no moment"}, {"2 weeks", "no moment"}, {"12 may", "no moment"},
		{"don't know", "no unsure"},
	})
}
