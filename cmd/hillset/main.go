package main

import (
	"fyne.io/fyne/v2/app"
	"fyne.io/fyne/v2/widget"
)

func main() { a := app.New(); w := a.NewWindow("x"); w.SetContent(widget.NewLabel("x")); w.ShowAndRun() }
