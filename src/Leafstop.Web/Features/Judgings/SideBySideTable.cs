using System.Security.Cryptography;
using Leafstop.Core.Judging;
using Leafstop.Core.Viewing;

namespace Leafstop.Web.Features.Judgings;

/// <summary>Two pictures as their observer meets them: the host's own random token and addresses, which serve this one showing only.</summary>
internal sealed record ShownPair(SideBySideTrial Trial, string Token, string Left, string Right);

/// <summary>Where one observer says which of two pictures is noisier. Safe for several requests at once.</summary>
/// <remarks>It tells whether a difference is seen and never a limit; it ends with its judging and is not kept.</remarks>
internal sealed class SideBySideTable
{
    private readonly Lock _one = new();
    private readonly SideBySideCheck _check;
    private readonly int _trials;
    private readonly LadderPictures _pictures;
    private ShownPair? _shown;

    /// <param name="check">The check, before its first answer.</param>
    /// <param name="trials">How many trials it has.</param>
    /// <param name="tone">Which places it shows.</param>
    /// <param name="pictures">Pictures of its own: a judging lets go of those that it does not need itself.</param>
    public SideBySideTable(SideBySideCheck check, int trials, ToneKind tone, LadderPictures pictures)
    {
        (_check, _trials, _pictures) = (check, trials, pictures);
        // Two levels, two frames, two places: all are made at once, so that no answer waits for a picture.
        Ahead = Task.Run(() =>
        {
            foreach (CropRegion region in CropRegions.For(tone))
            {
                foreach (bool second in (bool[])[false, true])
                {
                    pictures.Of(Frame(check.Cleaner, second), region);
                    pictures.Of(Frame(check.Noisier, second), region);
                }
            }
        });
    }

    /// <summary>Done when all pictures are made.</summary>
    internal Task Ahead { get; }

    /// <summary>How it stands.</summary>
    public SideBySideView View()
    {
        lock (_one)
            return SideBySideView.Of(_check, _trials);
    }

    /// <summary>The pair to judge now, the same one until it is answered; null when all are answered.</summary>
    public ShownPair? Trial()
    {
        lock (_one)
        {
            if (_shown is null && _check.Next() is { } next)
                _shown = new ShownPair(next, Random(), Random(), Random());
            return _shown;
        }
    }

    /// <summary>The PNG file at an address of the pair that is shown now; null for any other address.</summary>
    public byte[]? Picture(string address)
    {
        TrialPicture picture;
        CropRegion region;
        lock (_one)
        {
            if (_shown is null || (address != _shown.Left && address != _shown.Right))
                return null;
            SideBySidePictures sides = _check.Pictures(_shown.Trial.Token);
            picture = address == _shown.Left ? Frame(sides.Left, sides.IsSecondFrameLeft) : Frame(sides.Right, sides.IsSecondFrameRight);
            region = _shown.Trial.Region;
        }
        return _pictures.Of(picture, region);
    }

    /// <summary>Takes an answer. False when the token is not that of the pair that is shown now.</summary>
    public bool Answer(string token, SideReply reply)
    {
        lock (_one)
        {
            if (_shown is null || _shown.Token != token)
                return false;
            _check.Answer(_shown.Trial.Token, reply);
            _shown = null;
            return true;
        }
    }

    /// <summary>Takes the last answer back; its pair comes again under a new token. False when there is none, or when all are given: whoever has read the result would choose by it.</summary>
    public bool Undo()
    {
        lock (_one)
        {
            if (_check.Next() is null || !_check.Undo())
                return false;
            _shown = null;
            return true;
        }
    }

    /// <summary>What stands where behind a token, for those who check this program. No address tells it.</summary>
    internal SideBySidePictures? SidesBehind(string token)
    {
        lock (_one)
            return _shown?.Token == token ? _check.Pictures(_shown.Trial.Token) : null;
    }

    private static TrialPicture Frame(Core.Quantities.Iso iso, bool isSecond) => new(ShownLevel.OneFrame(iso), isSecond);

    private static string Random() => Convert.ToHexStringLower(RandomNumberGenerator.GetBytes(16));
}
