using System.Linq;

namespace Lampblack.Photos;

/// <summary>How blurred a window's edge is in a photo.</summary>
internal static class EdgeBlur
{
    /// <summary>The standard deviation of a normal spread, in mm on the sheet, over the mean of all rays; not a number where the photo does not show it.</summary>
    public static double SdMm(LightPlane light, SheetPose pose, EdgeCircle window)
    {
        const int Steps = 24;
        const double HalfMm = 0.9;
        var profile = Enumerable.Range(0, Steps + 1).Select(step => Enumerable.Range(0, 36).Average(ray =>
        {
            var (x, y) = pose.Project(window.Middle.Polar(window.RadiusMm + (((2.0 * step / Steps) - 1) * HalfMm), ray * 10));
            return light.At(x, y);
        })).ToList();
        var (bright, dark) = (profile.Take(4).Max(), profile.Skip(Steps - 6).Min());
        
        // From three to seven tenths of the rise are 1.0488 standard deviations; further out, the cells beyond have their say.
        return (Crossing(0.3) - Crossing(0.7)) / 1.0488;

        double Crossing(double share)
        {
            var level = dark + (share * (bright - dark));
            var step = Enumerable.Range(0, Steps).FirstOrDefault(index => profile[index] >= level && profile[index + 1] < level, -1);
            return step < 0 ? double.NaN : 2 * HalfMm / Steps * (step + ((profile[step] - level) / (profile[step] - profile[step + 1])));
        }
    }
}
