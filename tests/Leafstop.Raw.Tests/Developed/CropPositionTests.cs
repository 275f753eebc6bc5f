using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;
using Leafstop.Raw.Crops;
using Leafstop.Raw.Developed;

namespace Leafstop.Raw.Tests.Developed;

public sealed class CropPositionTests
{
    private static readonly CameraIdentity Camera = new() { Make = "Invented", Model = "Body X", Width = 1200, Height = 800, Mosaic = "2x2", Bits = 14 };

    // Derived: 20 % of 1200 less half of 100 is 190; 35 % of 800 less half of 100 is 230.
    [Fact]
    public void A_place_is_given_by_its_middle_and_told_by_it()
    {
        CropPosition place = CropPosition.Around(CropSubject.Dark, Share.Of(0.2), Share.Of(0.35), 100, Camera);
        Assert.Equal(new CropPosition(CropSubject.Dark, 190, 230), place);
        Assert.Equal((Share.Of(0.2), Share.Of(0.35)), place.Middle(100, Camera));
    }

    // Derived: half a crop and the margin of 3 pixels are 53 of 1200, 4.4 %, and 53 of 800, 6.6 %.
    [Fact]
    public void A_place_that_stands_out_of_the_frame_is_refused_with_the_room_there_is()
    {
        var refused = Assert.Throws<ArgumentException>(() => CropPosition.Around(CropSubject.Texture, Share.Of(0.98), Share.Of(0.5), 100, Camera));
        Assert.Equal("A crop of 100 pixels around 98 %, 50 % stands out of the frame: its middle can lie from 5 to 95 % of the width and from 7 to 93 % of the height.", refused.Message);
        // What the sentence allows is taken.
        Assert.Equal(1097, CropPosition.Around(CropSubject.Texture, Share.Of(0.956), Share.Of(0.5), 100, Camera).Left);
        Assert.Equal(1090, CropPosition.Around(CropSubject.Texture, Share.Of(0.95), Share.Of(0.93), 100, Camera).Left);
    }
}
