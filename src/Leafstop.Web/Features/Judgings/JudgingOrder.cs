using System.Security.Cryptography;
using Leafstop.Browser.Contracts;
using Leafstop.Core.Judging;
using Leafstop.Core.Sensor;
using Leafstop.Raw.Crops;
using Leafstop.Raw.Developed;
using Leafstop.Storage.Judgements;

namespace Leafstop.Web.Features.Judgings;

/// <summary>What a judging is made from: a wish, or what was kept of one that was begun earlier.</summary>
/// <param name="Id">Stands for it in addresses, also when it is gone on with; drawn at random.</param>
/// <param name="Camera">Name of the camera that the answers belong to.</param>
/// <param name="Folder">Full path of the raw files.</param>
/// <param name="Print">The print that is meant.</param>
/// <param name="ScreenPixelsPerCentimetre">Of the screen.</param>
/// <param name="Crops">Size and places of the crops.</param>
/// <param name="Seed">Decides every order.</param>
/// <param name="BegunAt">When it was begun.</param>
internal sealed record JudgingOrder(
    string Id, string Camera, string Folder, PrintCondition Print, double ScreenPixelsPerCentimetre, CropWish Crops, long Seed, DateTimeOffset BegunAt)
{
    /// <summary>What was kept of it; null for a new one.</summary>
    public KeptJudging? Begun { get; private init; }

    /// <summary>A new one.</summary>
    /// <param name="wish">A wish without fault.</param>
    public static JudgingOrder Of(JudgingWish wish) => new(
        Convert.ToHexStringLower(RandomNumberGenerator.GetBytes(16)), wish.Camera!, wish.Folder!, new PrintCondition(wish.PrintWidthMm!.Value, wish.ViewingDistanceMm!.Value),
        wish.ScreenPixelsPerCentimetre!.Value, wish.Crops(), wish.Seed ?? RandomSeed(), DateTimeOffset.UtcNow);

    /// <summary>One to go on with. Every place is given, so that none is looked for anew.</summary>
    /// <param name="camera">Name of its camera now.</param>
    /// <param name="kept">What was kept, with its scene.</param>
    /// <param name="scene">The scene.</param>
    public static JudgingOrder Of(string camera, KeptJudging kept, KeptScene scene) => new(
        scene.Name, camera, scene.Folder, kept.Result.Tags.Print, scene.ScreenPixelsPerCentimetre,
        new CropWish { SidePixels = scene.CropSidePixels, DarkLiftStops = kept.Result.Tags.Lift?.Value, Moved = [.. scene.Crops.Select(c => new CropPosition(JudgedLevels.SubjectOf(c.Region), c.Left, c.Top))] }, kept.Seed, kept.BegunAt)
    {
        Begun = kept,
    };

    /// <summary>What is kept beside the answers so that the same pictures can be made again.</summary>
    public KeptScene Scene(DevelopedCrops crops) => new(
        Id, Folder, crops.SamplesMark(), ScreenPixelsPerCentimetre, Crops.SidePixels, [.. crops.Places.Select(p => new KeptCrop(Region(p.Subject), p.Left, p.Top))]);

    /// <summary>The sentence for one that cannot be gone on with because its pictures cannot be made again.</summary>
    public static string Changed(string folder) =>
        $"The raw files in \"{folder}\" are not those that this judging was begun with, so it cannot be gone on with: put them back as they were, or begin a new one.";

    /// <summary>The sentence for one whose folder is not there.</summary>
    public static string Gone(string folder) => $"The folder \"{folder}\" that this judging was begun with is not there: bring it back to go on, or begin a new one.";

    /// <summary>The sentence for one whose folder may not be opened now.</summary>
    public static string NotNamed(string folder) =>
        $"The raw files of this judging lie in \"{folder}\", which was not named when this was started: start it again with leafstop serve \"{folder}\" to go on.";

    /// <summary>A seed at random, small enough that a page reads the same number back.</summary>
    public static long RandomSeed() => BitConverter.ToInt64(RandomNumberGenerator.GetBytes(8)) & ((1L << 52) - 1);

    /// <summary>The region that a crop stands for.</summary>
    public static CropRegion Region(CropSubject subject) => subject switch
    {
        CropSubject.Dark => CropRegion.Dark,
        CropSubject.MidTone => CropRegion.Mid,
        _ => CropRegion.Texture,
    };
}
