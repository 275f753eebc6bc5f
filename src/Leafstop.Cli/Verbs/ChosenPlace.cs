using System.CommandLine;
using Leafstop.Cli.CommandLine;
using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;
using Leafstop.Raw.Crops;
using Leafstop.Raw.Developed;

namespace Leafstop.Cli.Verbs;

/// <summary>A place of the scene that the person chose for a crop.</summary>
/// <param name="Subject">What it shows.</param>
/// <param name="Option">Name of the option, for refusals.</param>
/// <param name="Across">Its middle from the left edge, as a share of the width.</param>
/// <param name="Down">Its middle from the top edge, as a share of the height.</param>
internal sealed record ChosenPlace(CropSubject Subject, string Option, Share Across, Share Down)
{
    /// <summary>Reads "20%,35%" or "0.2 0.35"; null when the option was not given.</summary>
    /// <exception cref="Refusal">Not readable.</exception>
    public static ChosenPlace? Read(CropSubject subject, Option<string?> option, ParseResult call)
    {
        if (call.GetValue(option) is not { } text)
            return null;
        string[] parts = text.Split([',', ';', ' '], StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);
        if (parts.Length != 2)
            throw Refusal.WrongCall($"{option.Name}: '{text.Trim()}' is no place: write how far from the left and from the top edge, as in 20%,35%.");
        return Share.TryParse(parts[0], out Share across, out string why) && Share.TryParse(parts[1], out Share down, out why)
            ? new ChosenPlace(subject, option.Name, across, down)
            : throw Refusal.WrongCall($"{option.Name}: {why}");
    }

    /// <summary>The crop in pixels.</summary>
    /// <exception cref="Refusal">It would stand out of the frame.</exception>
    public CropPosition In(int side, CameraIdentity camera)
    {
        try
        {
            return CropPosition.Around(Subject, Across, Down, side, camera);
        }
        catch (ArgumentException outside)
        {
            throw Refusal.WrongCall($"{Option}: {outside.Message}");
        }
    }
}
