package main

import (
	"archive/tar"
	"bytes"
	"compress/gzip"
	"fmt"
	"io"
	"runtime"
	"strconv"
	"strings"
	"testing"
	"time"

	"mottle/weather"
)

// stream gives the texts of an iterator as one, without holding it, and notes the
// largest heap on the way.
type stream struct {
	next    func() []byte // nil at the end
	left    []byte
	calls   int
	largest uint64 // bytes
}

func (s *stream) Read(p []byte) (int, error) {
	if s.calls++; s.calls%64 == 0 {
		var m runtime.MemStats
		runtime.ReadMemStats(&m)
		s.largest = max(s.largest, m.HeapAlloc)
	}
	if len(s.left) == 0 {
		if s.left = s.next(); s.left == nil {
			return 0, io.EOF
		}
	}
	n := copy(p, s.left)
	s.left = s.left[n:]
	return n, nil
}

// repeated gives a head and after it a text again and again, about size bytes in all.
func repeated(head, text string, size int) *stream {
	block := []byte(strings.Repeat(text, 1+(1<<16)/len(text)))
	begun, given := false, 0
	return &stream{next: func() []byte {
		switch {
		case !begun:
			begun = true
			return []byte(head)
		case given >= size:
			return nil
		}
		given += len(block)
		return block
	}}
}

// counted gives a head and after it a text for each number from 0, its # replaced.
func counted(head, text string, count int) *stream {
	before, after, _ := strings.Cut(text, "#")
	n, block := -1, []byte(nil)
	return &stream{next: func() []byte {
		if n < 0 {
			n = 0
			return []byte(head)
		}
		block = block[:0]
		for ; n < count && len(block) < 1<<16; n++ {
			block = append(strconv.AppendInt(append(block, before...), int64(n), 10), after...)
		}
		if len(block) == 0 {
			return nil
		}
		return block
	}}
}

// packed packs a stream with gzip while it is read; nothing is held.
func packed(s *stream) *stream {
	r, w := io.Pipe()
	go func() {
		z, _ := gzip.NewWriterLevel(w, gzip.BestSpeed)
		_, err := io.Copy(z, s)
		if err == nil {
			err = z.Close()
		}
		w.CloseWithError(err)
	}()
	buffer := make([]byte, 1<<16)
	return &stream{next: func() []byte {
		n, err := r.Read(buffer)
		if err != nil {
			return nil
		}
		return buffer[:n]
	}}
}

// archived gives a tar archive of files, as many as count, each of a text.
func archived(count int, text string) *stream {
	n := 0
	return &stream{next: func() []byte {
		if n == count {
			return nil
		}
		n++
		var b bytes.Buffer
		w := tar.NewWriter(&b)
		if err := w.WriteHeader(&tar.Header{Name: fmt.Sprint(n), Mode: 0o644, Size: int64(len(text))}); err != nil {
			return nil
		}
		if _, err := io.WriteString(w, text); err != nil || w.Flush() != nil {
			return nil
		}
		return b.Bytes()
	}}
}

// TestBrokenBig reads inputs too big to be kept: each ends in its error within the
// bounds of time and memory, whatever its size.
func TestBrokenBig(t *testing.T) {
	const (
		mb    = 1 << 20
		plain = "date,tmin_C,tmax_C,precip_mm\n"
		ghcn  = "STATION,DATE,PRCP,TMAX,TMIN\n"
		table = "mukey,cokey,hzname,hzdept_r,hzdepb_r,sandtotal_r,claytotal_r\n"
	)
	for _, c := range []struct {
		folder, name string
		file         func() *stream
		want         string
	}{
		{"weather", "columns.csv", func() *stream { return counted(strings.TrimSpace(plain), ",c#", 1_000_000) },
			`columns.csv:1: found "a line of more than 65536 characters"; allowed shorter lines: is this a daily record?`},
		{"weather", "line.csv", func() *stream { return repeated(plain+"2001-01-01,", "5", 10*mb) },
			`line.csv:2: found "a line of more than 65536 characters"; allowed shorter lines: is this a daily record?`},
		{"weather", "one-line.csv", func() *stream { return repeated("", "date", 100*mb) },
			`one-line.csv:1: found "a line of more than 65536 characters"; allowed shorter lines: is this a daily record?`},
		{"weather", "bomb-of-blanks.csv.gz", func() *stream { return packed(repeated(plain, "\n", 1<<30)) },
			`: found "a file that grows to more than 200 times its packed size"; allowed less: this is no daily record`},
		{"weather", "bomb-of-nulls.csv.gz", func() *stream { return packed(repeated(plain, "\x00", 1<<30)) },
			`bomb-of-nulls.csv.gz:2: found "a null byte"; allowed a text file, one packed with gzip, or a tar archive of such: the file is damaged, download or copy it again`},
		{"weather", "bomb-of-rows.csv.gz", func() *stream { return packed(repeated(ghcn, "USC00000000,2001-06-01,0,214,93\n", 1<<30)) },
			`bomb-of-rows.csv.gz:200002: found "more than 200000 rows"; allowed one row a day of one station`},
		{"weather", "backwards.csv", func() *stream {
			return repeated(plain+"2001-06-02,5,15,0\n", "2001-06-01,5,15,0\n", 100*mb)
		},
			`backwards.csv:3: column date: found "2001-06-01"; allowed a day after 2001-06-02: put the rows in order of date, each day once`},
		{"weather", "words.csv", func() *stream { return repeated(ghcn, "USC00000000,June,0,214,93\n", 100*mb) },
			`words.csv:2: column DATE: found "June"; allowed a day from 1700 to 2200 written as 2006-01-02: take the row out if it holds no day, such as one of units`},
		{"weather", "stations.csv", func() *stream { return counted(ghcn, "S#,2001-06-01,0,214,93\n", 1_000_000) },
			`stations.csv:250002: column STATION: found "more than 250000 stations"; allowed fewer: is this a daily record?`},
		{"weather", "files.tar", func() *stream { return archived(5000, ghcn+"USC00000000,2001-06-01,0,214,93\n") },
			`files.tar: found "more than 4000 files"; allowed the files of one record`},
		{"weather", "zeros.bin", func() *stream { return repeated("", "\x00", 100*mb) },
			`zeros.bin: found "an archive without files"; allowed the files of one record: pack the files themselves, no folders or links`},
		{"soil", "columns.csv", func() *stream { return counted("hzdept_r", ",c#", 1_000_000) },
			`columns.csv:1: found "a row of more than 1048576 bytes"; allowed shorter rows: are the quotes in pairs, and is this a survey's table?`},
		{"soil", "quote.csv", func() *stream { return repeated(table+`1,1,"A`, ",0,20,40,20\n", 100*mb) },
			`quote.csv:2: found "a row of more than 1048576 bytes"; allowed shorter rows: are the quotes in pairs, and is this a survey's table?`},
		{"soil", "layers.csv", func() *stream { return repeated(table, "1,1,A,0,20,40,20\n", 100*mb) },
			`layers.csv:20002: found "a further row of map unit 1"; allowed at most 20000: are the keys in their columns?`},
		{"soil", "units.csv", func() *stream { return counted(table, "#,1,A,0,20,40,20\n", 3_000_000) },
			`units.csv:100002: column mukey: found "more than 100000 map units"; allowed fewer: export those of one county or state`},
	} {
		if testing.Short() {
			t.Skip("reads gigabytes")
		}
		runtime.GC()
		var before runtime.MemStats
		runtime.ReadMemStats(&before)
		file := c.file()
		start := time.Now()
		err := brokenReaders[c.folder](c.name, file)
		took := time.Since(start)
		if first, _, _ := strings.Cut(fmt.Sprint(err), "\n"); !strings.HasSuffix(first, c.want) { // the bomb ends at a line of chance
			t.Errorf("%s %s: error\n%s\nwant\n%s", c.folder, c.name, first, c.want)
		}
		held := int64(file.largest) - int64(before.HeapAlloc)
		t.Logf("%s %s: %v, %d MB held", c.folder, c.name, took.Round(time.Millisecond), held>>20)
		if took > longestRead || held > mostMemory {
			t.Errorf("%s %s: %v and %d MB; allowed %v and %d MB", c.folder, c.name, took, held>>20, longestRead, mostMemory>>20)
		}
	}
}

// yearIn writes days of a year in a layout, each with 5 to 15 C and a precipitation as
// the file has it.
var yearIn = map[string]struct {
	head, row string
	tenths    bool // the layout is in tenths of mm
}{
	"plain":     {head: "date,tmin_C,tmax_C,precip_mm\n", row: "DATE,5,15,RAIN\n"},
	"ghcn":      {head: "STATION,DATE,PRCP,TMAX,TMIN\n", row: "USC00000000,DATE,RAIN,150,50\n", tenths: true},
	"long":      {head: "ID,DATE,ELEMENT,DATA_VALUE,M_FLAG,Q_FLAG,S_FLAG,OBS_TIME\n", row: "S,DAY,TMAX,150,,,7,\nS,DAY,TMIN,50,,,7,\nS,DAY,PRCP,RAIN,,,7,\n", tenths: true},
	"daymet":    {head: "year,yday,prcp,tmax,tmin\n", row: "2001,N,RAIN,15,5\n"},
	"uscrn":     {head: "WBANNO,LST_DATE,CRX_VN,LONGITUDE,LATITUDE,T_DAILY_MAX,T_DAILY_MIN,T_DAILY_MEAN,T_DAILY_AVG,P_DAILY_CALC,SOLARAD_DAILY,SUR_TEMP_DAILY_TYPE,SUR_TEMP_DAILY_MAX,SUR_TEMP_DAILY_MIN\n", row: "99999,DAY,2.6,-97.1,46.9,15,5,10,10,RAIN,20,C,30,8\n"},
	"power":     {head: "YEAR,DOY,T2M_MAX,T2M_MIN,PRECTOTCORR\n", row: "2001,N,15,5,RAIN\n"},
	"gridmet":   {head: "date,pr,tmmx,tmmn\n", row: "DATE,RAIN,288,278\n"},
	"openmeteo": {head: "latitude,longitude,elevation,utc_offset_seconds\n46.9,-97.1,285,-21600\n\ntime,temperature_2m_max (C),temperature_2m_min (C),precipitation_sum (mm)\n", row: "DATE,15,5,RAIN\n"},
	"eccc":      {head: `"Date/Time","Year","Month","Day","Max Temp (C)","Min Temp (C)","Total Precip (mm)"` + "\n", row: `"DATE","2001","","","15","5","RAIN"` + "\n"},
	"located":   {head: "location,date,precipitation,temp_max,temp_min\n", row: "Nowhere,DATE,RAIN,15,5\n"},
}

// TestBrokenYear: precipitation of a whole year in another unit is an error that names
// the unit. 0.08 inches a day are 0.08 * 25.4 * 365 = 742 mm a year, and 20 tenths of
// mm a day 20 * 0.1 * 365 = 730 mm.
func TestBrokenYear(t *testing.T) {
	for layout, c := range yearIn {
		for name, x := range map[string]struct{ rain, tenths, want string }{
			"inches": {"0.08", "", "29.2 mm a year over 1 complete years; allowed 150 to 2500: the values may be in inches (742 mm a year) or cm (292 mm a year)"},
			"tenths": {"20", "200", "7.3e+03 mm a year over 1 complete years; allowed 150 to 2500: the values may be in tenths of mm (730 mm a year) or hundredths of an inch (1854 mm a year)"},
		} {
			if c.tenths {
				if x.rain = x.tenths; x.rain == "" { // inches in tenths of mm are no whole numbers
					continue
				}
			}
			var b strings.Builder
			b.WriteString(c.head)
			start := weather.NewDate(2001, 1, 1)
			for i := range 365 {
				day := (start + weather.Date(i)).String()
				b.WriteString(strings.NewReplacer("DATE", day, "DAY", strings.ReplaceAll(day, "-", ""), ",N,", ","+strconv.Itoa(i+1)+",", "RAIN", x.rain).Replace(c.row))
			}
			checkError(t, layout+"-"+name, layout+"-"+name+": column precipitation: found a mean of "+x.want, brokenReaders["weather"](layout+"-"+name, strings.NewReader(b.String())))
		}
	}
}
