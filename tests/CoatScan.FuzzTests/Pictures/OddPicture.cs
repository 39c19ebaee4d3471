using CoatScan.DemoPanels;

namespace CoatScan.FuzzTests.Pictures;

/// <summary>Draws pictures that are hard on what looks for edges, spots and lines; the same recipe gives the same picture.</summary>
/// <remarks>
/// Bytes of a recipe: kind, size, period, thickness, contrast, seed, base gray, seed again. Gray but for the rendered panels and what a tint
/// makes of the rest, so that the colors of rust and of two paints come too.
/// </remarks>
internal static class OddPicture
{
    /// <summary>Length of a recipe.</summary>
    public const int RecipeBytes = 8;

    private static readonly Action<Canvas, Recipe>[] All =
    [
        Noise,
        SaltAndPepper,
        Checkerboard,
        Grid,
        Dots,
        Spots,
        TouchingDiscs,
        Spiral,
        Rings,
        Star,
        ParallelLines,
        Scribble,
        Straws,
        Maze,
        Cells,
        Waves,
        Comb,
        Stairs,
    ];

    /// <summary>Number of kinds; the last is a rendered panel.</summary>
    public static int Kinds => All.Length + 1;

    /// <summary>Draws a recipe.</summary>
    public static (byte[] Rgb, int WidthPx, int HeightPx) Draw(byte[] bytes)
    {
        var recipe = new Recipe(bytes);
        if (recipe.Kind == All.Length)
        {
            var panel = DemoPanelRenderer.Render(
                VisualClassIds.All[recipe.Period % VisualClassIds.All.Count],
                (ulong)recipe.Seed,
                new DemoPanelOptions { WidthPx = Math.Max(160, recipe.WidthPx), HeightPx = Math.Max(160, recipe.HeightPx) });
            return (panel.Rgb, panel.WidthPx, panel.HeightPx);
        }

        var canvas = new Canvas(recipe.WidthPx, recipe.HeightPx, recipe.Base);
        All[recipe.Kind](canvas, recipe);
        return (canvas.ToRgb(recipe.Tint), canvas.Width, canvas.Height);
    }

    private static void Noise(Canvas canvas, Recipe recipe) =>
        canvas.Each((_, _) => recipe.Base + (recipe.Random.NextDouble() - 0.5) * recipe.Contrast);

    private static void SaltAndPepper(Canvas canvas, Recipe recipe)
    {
        var share = (1.0 + recipe.Thickness) / (4 + (recipe.Period * 16));
        canvas.Each((_, _) => recipe.Random.NextDouble() < share ? recipe.Base + (recipe.Random.Next(2) == 0 ? 1 : -1) * recipe.Contrast : recipe.Base);
    }

    private static void Checkerboard(Canvas canvas, Recipe recipe) =>
        canvas.Each((x, y) => ((x / recipe.Period) + (y / recipe.Period)) % 2 == 0 ? recipe.Base : recipe.Mark);

    private static void Grid(Canvas canvas, Recipe recipe) =>
        canvas.Each((x, y) => x % recipe.Pitch < recipe.Thickness || y % recipe.Pitch < recipe.Thickness ? recipe.Mark : recipe.Base);

    private static void Dots(Canvas canvas, Recipe recipe) =>
        canvas.Each((x, y) => x % (recipe.Period + 1) == 0 && y % (recipe.Period + 1) == 0 ? recipe.Mark : recipe.Base);

    private static void Spots(Canvas canvas, Recipe recipe)
    {
        for (var i = canvas.Area / (recipe.Pitch * recipe.Pitch * 4); i >= 0; i--)
        {
            canvas.Disc(recipe.Random.Next(canvas.Width), recipe.Random.Next(canvas.Height), 1 + (recipe.Random.NextDouble() * recipe.Thickness), recipe.Mark);
        }
    }

    private static void TouchingDiscs(Canvas canvas, Recipe recipe)
    {
        for (var y = 0; y < canvas.Height; y += recipe.Pitch)
        {
            for (var x = 0; x < canvas.Width; x += recipe.Pitch)
            {
                canvas.Disc(x + recipe.Random.Next(2), y + recipe.Random.Next(2), (recipe.Pitch / 2.0) + 0.5, recipe.Mark);
            }
        }
    }

    private static void Spiral(Canvas canvas, Recipe recipe)
    {
        var (centerX, centerY) = (canvas.Width / 2.0, canvas.Height / 2.0);
        canvas.Each((x, y) =>
        {
            var radius = Math.Sqrt(((x - centerX) * (x - centerX)) + ((y - centerY) * (y - centerY)));
            var turn = Math.Atan2(y - centerY, x - centerX) / Math.Tau;
            var place = ((radius / recipe.Pitch) - turn + 100_000) % 1 * recipe.Pitch;
            return place < recipe.Thickness ? recipe.Mark : recipe.Base;
        });
    }

    private static void Rings(Canvas canvas, Recipe recipe)
    {
        var every = recipe.Pitch * 6;
        canvas.Each((x, y) =>
        {
            double dx = (x % every) - (every / 2), dy = (y % every) - (every / 2);
            return Math.Sqrt((dx * dx) + (dy * dy)) % recipe.Pitch < recipe.Thickness ? recipe.Mark : recipe.Base;
        });
    }

    private static void Star(Canvas canvas, Recipe recipe)
    {
        var rays = 3 + (recipe.Period * 4);
        for (var i = 0; i < rays; i++)
        {
            var angle = Math.Tau * i / rays;
            canvas.Line(
                canvas.Width / 2.0,
                canvas.Height / 2.0,
                (canvas.Width / 2.0) + (canvas.Width * Math.Cos(angle)),
                (canvas.Height / 2.0) + (canvas.Width * Math.Sin(angle)),
                recipe.Thickness,
                recipe.Mark);
        }
    }

    private static void ParallelLines(Canvas canvas, Recipe recipe)
    {
        var angle = recipe.Random.NextDouble() * Math.PI;
        var (cos, sin) = (Math.Cos(angle), Math.Sin(angle));
        canvas.Each((x, y) => Math.Abs((x * cos) + (y * sin)) % recipe.Pitch < recipe.Thickness ? recipe.Mark : recipe.Base);
    }

    private static void Scribble(Canvas canvas, Recipe recipe)
    {
        double x = canvas.Width / 2.0, y = canvas.Height / 2.0, angle = 0;
        for (var i = canvas.Area / (recipe.Pitch * 40); i >= 0; i--)
        {
            angle += (recipe.Random.NextDouble() - 0.5) * 1.5;
            var (nextX, nextY) = (x + (6 * Math.Cos(angle)), y + (6 * Math.Sin(angle)));
            canvas.Line(x, y, nextX, nextY, recipe.Thickness, recipe.Mark);
            (x, y) = (((nextX % canvas.Width) + canvas.Width) % canvas.Width, ((nextY % canvas.Height) + canvas.Height) % canvas.Height);
        }
    }

    private static void Straws(Canvas canvas, Recipe recipe)
    {
        var length = canvas.Width / (1.0 + (recipe.Period % 12));
        for (var i = canvas.Area / (recipe.Pitch * 200); i >= 0; i--)
        {
            var angle = recipe.Random.NextDouble() * Math.PI;
            double x = recipe.Random.Next(canvas.Width), y = recipe.Random.Next(canvas.Height);
            canvas.Line(x, y, x + (length * Math.Cos(angle)), y + (length * Math.Sin(angle)), recipe.Thickness, recipe.Mark);
        }
    }

    // Diagonals, each leaning one way or the other: branches and ends everywhere, and long ways between.
    private static void Maze(Canvas canvas, Recipe recipe)
    {
        for (var y = 0; y < canvas.Height; y += recipe.Pitch)
        {
            for (var x = 0; x < canvas.Width; x += recipe.Pitch)
            {
                var leans = recipe.Random.Next(2) == 0;
                canvas.Line(leans ? x : x + recipe.Pitch, y, leans ? x + recipe.Pitch : x, y + recipe.Pitch, recipe.Thickness, recipe.Mark);
            }
        }
    }

    // A net as cracks make it: borders between the nearest of random points, one in each field.
    private static void Cells(Canvas canvas, Recipe recipe)
    {
        var field = recipe.Pitch * 3;
        int columns = (canvas.Width / field) + 3, rows = (canvas.Height / field) + 3;
        var points = new (double X, double Y)[columns * rows];
        for (var i = 0; i < points.Length; i++)
        {
            points[i] = (((i % columns) - 1 + recipe.Random.NextDouble()) * field, ((i / columns) - 1 + recipe.Random.NextDouble()) * field);
        }

        canvas.Each((x, y) =>
        {
            double nearest = double.MaxValue, second = double.MaxValue;
            for (var row = y / field; row <= (y / field) + 2; row++)
            {
                for (var column = x / field; column <= (x / field) + 2; column++)
                {
                    var (pointX, pointY) = points[(row * columns) + column];
                    var distance = Math.Sqrt(((x - pointX) * (x - pointX)) + ((y - pointY) * (y - pointY)));
                    (nearest, second) = distance < nearest ? (distance, nearest) : (nearest, Math.Min(second, distance));
                }
            }

            return second - nearest < recipe.Thickness ? recipe.Mark : recipe.Base;
        });
    }

    private static void Waves(Canvas canvas, Recipe recipe)
    {
        var (kx, ky) = (Math.Tau / recipe.Pitch * recipe.Random.NextDouble(), Math.Tau / recipe.Pitch * recipe.Random.NextDouble());
        var bend = recipe.Thickness / (40.0 * recipe.Pitch);
        canvas.Each((x, y) => recipe.Base + (recipe.Contrast / 2 * Math.Sin((kx * x) + (ky * y * (1 + (bend * y / canvas.Height))))));
    }

    private static void Comb(Canvas canvas, Recipe recipe) => canvas.Each(
        (x, y) => y % (recipe.Pitch * 12) < recipe.Thickness || (x % recipe.Pitch < recipe.Thickness && y % (recipe.Pitch * 12) < recipe.Pitch * 8)
            ? recipe.Mark
            : recipe.Base);

    // Zones of many grays with straight and stepped borders.
    private static void Stairs(Canvas canvas, Recipe recipe)
    {
        var seed = recipe.Random.Next(1000);
        var size = recipe.Pitch * recipe.Thickness;
        canvas.Each((x, y) => recipe.Base + (((((x / size) * 7) + ((y / size) * 13) + seed) % 11) - 5) * recipe.Contrast / 10);
    }
}
