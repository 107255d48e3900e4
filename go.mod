module keelrow

go 1.26.8

require (
	github.com/BurntSushi/toml v1.6.0
	github.com/andybalholm/brotli v1.2.8
	github.com/chromedp/cdproto v0.159.0
	github.com/chromedp/chromedp v0.23.0
	github.com/coder/websocket v1.8.15
	github.com/hexops/vecty v0.6.0
	github.com/peterstace/simplefeatures v0.50.0
	gonum.org/v1/gonum v0.16.0
	rsc.io/qr v0.2.0
)

require github.com/go-json-experiment/json v0.0.0-20260213210345-44df1a37e875 // indirect
