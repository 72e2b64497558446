using SkiaSharp;

namespace MitigationOffice.Browser.Tests;

/// <summary>A drawn plan as a scanner would bring it: two rooms, a stair, a furnace; 36 ft by 28 ft at 25 pixels a foot, its corner at 150, 820 of 1200 by 900.</summary>
internal static class Scan
{
    public static byte[] Of(int width, int height)
    {
        using var bitmap = new SKBitmap(width, height);
        using (var canvas = new SKCanvas(bitmap))
        {
            canvas.Clear(new SKColor(0xf4, 0xf1, 0xe8));
            using var pen = new SKPaint { Color = new SKColor(0x2a, 0x33, 0x3c), StrokeWidth = 7, Style = SKPaintStyle.Stroke };
            using var thin = new SKPaint { Color = new SKColor(0x55, 0x60, 0x6a), StrokeWidth = 2, Style = SKPaintStyle.Stroke };
            canvas.DrawRect(150, 120, 900, 700, pen);
            canvas.DrawLine(700, 120, 700, 470, pen);
            canvas.DrawRect(820, 200, 90, 70, thin);
            for (var step = 0; step < 9; step++) canvas.DrawRect(420 + step * 24, 700, 24, 90, thin);
        }

        using var data = bitmap.Encode(SKEncodedImageFormat.Png, 100);
        return data.ToArray();
    }
}
